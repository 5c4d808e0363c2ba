const ones =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const tens = '  twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');

function belowHundred(value: number): string {
  if (value < 20) return ones[value] ?? '';
  const rest = value % 10;
  return `${tens[Math.floor(value / 10)]}${rest ? `-${ones[rest]}` : ''}`;
}

function belowThousand(value: number): string {
  const [hundreds, rest] = [Math.floor(value / 100), value % 100];
  if (hundreds === 0) return belowHundred(rest);
  return `${ones[hundreds]} hundred${rest ? ` and ${belowHundred(rest)}` : ''}`;
}

/** A whole number below a million, spelled out: "one thousand six hundred and twenty". */
export function inWords(value: number): string {
  const [thousands, rest] = [Math.floor(value / 1000), value % 1000];
  if (thousands === 0) return belowThousand(rest);
  const joint = rest > 0 && rest < 100 ? ' and ' : ' ';
  return `${belowThousand(thousands)} thousand${rest ? joint + belowThousand(rest) : ''}`;
}
