export const typed = {
  notNumber: (text: string) => `“${text}” is not a number. Write it like 1620 or 1.62, or leave it empty.`,
  maybeTwo: (text: string, spelled: string, large: string, small: string) =>
    `Is ${text} ${spelled}, or ${small}? Write ${large} or ${small}.`,
  notAboveZero: (text: string) => `“${text}” cannot be: a weight is more than nothing.`,
  tooHeavy: (text: string) => `“${text}” is more than any snake weighs. Look at the number and its unit.`,
  notPossible: (text: string) => `“${text}” cannot be. Look at the number and its unit.`,
  notCount: (text: string, most: number) => `“${text}” does not do: a whole number from 0 to ${most}.`,
};
