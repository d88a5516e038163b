/** Hands a file to the reader's own disk. Nothing leaves the machine: the address is of this page's memory. */
export function save(
  name: string,
  content: string | Uint8Array<ArrayBuffer> | Blob,
  type = 'text/plain',
): void {
  const of = typeof content === 'string' ? `${type};charset=utf-8` : type;
  const address = URL.createObjectURL(new Blob([content], { type: of }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
