// One plain mail address: no list, no name, no quoting, nothing that could end a line.

export function isMailAddress(text: string): boolean {
  const local = "[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+(\\.[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+)*";
  const label = '[A-Za-z0-9]([A-Za-z0-9-]{0,61}[A-Za-z0-9])?';
  return text.length <= 254 && new RegExp(`^${local}@(${label}\\.)+[A-Za-z][A-Za-z0-9-]{0,62}$`).test(text);
}
