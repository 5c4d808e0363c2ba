/** What an animal needs, and what is put right about it. */
export const animalToday = {
  title: 'Today it needs',
  nothing: 'Nothing needed today',
  wrong: 'Its name or kind is wrong',
  wrongLead:
    'Counts from its arrival on: what it may be given is judged anew by the kind. What was entered before stays readable.',
  newName: 'Its name is',
  newKind: 'Its kind is',
  correct: 'Put it right',
  corrected: (name: string) => `${name} is put right.`,
  choose: 'Choose',
  line: 'Time line',
  weighEach: 'Weigh each',
  weighed: (name: string) => `Weight of ${name}`,
};
