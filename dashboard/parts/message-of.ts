/** What browsers, and what loads styles for them, say when a part that is fetched late does not come. */
const notFetched =
  /dynamically imported module|importing a module script failed|unable to preload css/i;

/** What an error says, whatever was thrown; code that could not be fetched in words of ours. */
export function messageOf(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  return notFetched.test(message)
    ? 'A part of the page could not be fetched. Check the connection and load the page again; your files are kept.'
    : message;
}
