/** Hands a text to the reader's own disk. Nothing leaves the machine: the address is of this page's memory. */
export function save(name: string, text: string, type = 'text/plain'): void {
  const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
