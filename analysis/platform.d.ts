/**
 * The few platform objects that browsers and Node share and that the analysis may use.
 * They are declared here, not taken from the DOM library, so that nothing else of a page compiles.
 */
interface AbortSignal {
  readonly aborted: boolean;
  readonly reason: unknown;
  throwIfAborted(): void;
  addEventListener(type: 'abort', listener: () => void, options?: { once?: boolean }): void;
  removeEventListener(type: 'abort', listener: () => void): void;
}
interface TextDecoder {
  decode(input?: Uint8Array, options?: { stream?: boolean }): string;
}
declare var TextDecoder: { new (label?: string, options?: { fatal?: boolean }): TextDecoder };
interface TextEncoder {
  encode(input?: string): Uint8Array<ArrayBuffer>;
  encodeInto(text: string, into: Uint8Array): { read: number; written: number };
}
declare var TextEncoder: { new (): TextEncoder };
