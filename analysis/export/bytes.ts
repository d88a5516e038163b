/** Gathers what is written into one array of bytes of its own, so that it can be handed over without a copy. */
export function byteGatherer() {
  const parts: Uint8Array[] = [];
  return {
    add: (part: Uint8Array): void => {
      parts.push(part);
    },
    bytes: (): Uint8Array<ArrayBuffer> => {
      const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
      let at = 0;
      for (const part of parts) {
        whole.set(part, at);
        at += part.length;
      }
      return whole;
    },
  };
}
