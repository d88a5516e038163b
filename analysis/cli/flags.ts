/** Wrong use of the command line: exit code 2. */
export class UsageError extends Error {}

export type Flags = Readonly<Record<string, string | string[] | undefined>>;

/** The value of a flag that is given once. */
export function one(flags: Flags, name: string): string | undefined {
  const value = flags[name];
  return Array.isArray(value) ? value.at(-1) : value;
}

/** A whole number; throws a UsageError for anything else. */
export function whole(flags: Flags, name: string, otherwise: number): number {
  const text = one(flags, name);
  if (text === undefined) return otherwise;
  if (!/^\d+$/.test(text)) throw new UsageError(`--${name} needs a whole number, not "${text}".`);
  return Number(text);
}
