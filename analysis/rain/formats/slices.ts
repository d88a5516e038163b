import { type ByteSource, Refusal } from '../../read/outcome.ts';

interface Slice {
  readonly offset: number;
  readonly length: number;
}

interface Wish extends Slice {
  readonly grant: (bytes: ArrayBuffer) => void;
  readonly refuse: (cause: unknown) => void;
}

/** Wishes nearer to one another than this are read in one go, as long as that stays under `largest`. */
const gap = 4096;
const largest = 4 << 20;

/** Exactly the asked bytes in a buffer of their own; fewer only at the end of the file. */
export async function bytesAt(
  source: ByteSource,
  offset: number,
  length: number,
): Promise<Uint8Array<ArrayBuffer>> {
  const to = Math.min(source.size, offset + length);
  if (offset >= to) return new Uint8Array(0);
  return new Uint8Array(await source.slice(offset, to));
}

export const refuseTruncated = (file: string): never => {
  throw new Refusal(
    file,
    `${file} is cut short: it says more than its bytes hold. Copy or download it again.`,
  );
};

/** Sorted wishes in groups that one read serves. */
function grouped(wishes: readonly Wish[]): Wish[][] {
  const groups: Wish[][] = [];
  let start = 0;
  let end = Number.NEGATIVE_INFINITY;
  for (const wish of wishes.toSorted((a, b) => a.offset - b.offset)) {
    const last = wish.offset + wish.length;
    if (wish.offset - end > gap || last - start > largest) {
      groups.push([wish]);
      start = wish.offset;
      end = last;
    } else {
      groups.at(-1)!.push(wish);
      end = Math.max(end, last);
    }
  }
  return groups;
}

async function serve(source: ByteSource, group: readonly Wish[]): Promise<void> {
  const start = group[0]!.offset;
  const end = group.reduce((most, { offset, length }) => Math.max(most, offset + length), start);
  try {
    const { buffer } = await bytesAt(source, start, end - start);
    for (const { offset, length, grant } of group) {
      grant(buffer.slice(offset - start, offset - start + length));
    }
  } catch (cause) {
    for (const { refuse } of group) refuse(cause);
  }
}

/** What the TIFF reader asks bytes of. */
export interface SliceSource {
  readonly fetch: (slices: readonly Slice[]) => Promise<ArrayBuffer[]>;
  readonly fetchSlice: (slice: Slice) => Promise<Slice & { readonly data: ArrayBuffer }>;
  readonly fileSize: number;
  readonly close: () => Promise<void>;
  /** From here on, bytes beyond the end of the file are a mistake of the file, not a generous guess of the reader. */
  readonly mindTheEnd: () => void;
}

/**
 * The file as the TIFF reader wants it: requests that come together are sorted and served one read after another, since
 * a reader asks for all tiles at once and a raster of strips has as many as it has rows.
 */
export function sliceSource(source: ByteSource): SliceSource {
  let wishes: Wish[] = [];
  let serving = false;
  let strict = false;
  const pump = async (): Promise<void> => {
    serving = true;
    // Requests of the same turn come in before the first is served.
    await Promise.resolve();
    while (wishes.length > 0) {
      const now = wishes;
      wishes = [];
      for (const group of grouped(now)) await serve(source, group);
    }
    serving = false;
  };
  const one = ({ offset, length }: Slice): Promise<ArrayBuffer> => {
    if (strict && offset + length > source.size) refuseTruncated(source.name);
    return new Promise((grant, refuse) => {
      wishes.push({ offset, length, grant, refuse });
      if (!serving) void pump();
    });
  };
  const fetch = async (slices: readonly Slice[]) => Promise.all(slices.map(one));
  return {
    fetch,
    fetchSlice: async (slice) => ({ ...slice, data: await one(slice) }),
    fileSize: source.size,
    close: async () => {},
    mindTheEnd: () => {
      strict = true;
    },
  };
}
