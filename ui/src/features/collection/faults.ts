/** Makes every field of the form that is not understood tell why, and goes to the first; false if there is none. */
export function tellFaults(form: HTMLFormElement): boolean {
  const fields = [...form.querySelectorAll<HTMLInputElement>('[aria-invalid="true"]')];
  fields.forEach((field) => field.dispatchEvent(new Event('invalid')));
  fields[0]?.closest('details')?.setAttribute('open', '');
  fields[0]?.focus();
  return fields.length > 0;
}
