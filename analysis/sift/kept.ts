/** `make`, of which the first answer is kept; what breaks is not. */
export function once<T>(make: () => Promise<T>): () => Promise<T> {
  const memory = new Map<string, Promise<T>>();
  return () => kept(memory, '', make);
}

/** What is made once and kept by its name; what breaks is not kept, so that the next question tries again. */
export function kept<T>(
  memory: Map<string, Promise<T>>,
  name: string,
  make: () => Promise<T>,
): Promise<T> {
  const known = memory.get(name);
  if (known) return known;
  const made = make();
  memory.set(name, made);
  made.catch(() => memory.delete(name));
  return made;
}
