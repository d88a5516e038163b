import type { Page } from 'playwright-core';

/** An element on which Tab stops. */
export interface Stop {
  readonly name: string;
  /** It, or the label it lies in, is drawn with an outline. */
  readonly outlined: boolean;
  /** Some of it lies in the window and under nothing else. */
  readonly inWindow: boolean;
  /** It stands after the stop before it in the document. */
  readonly afterLast: boolean;
}

const most = 500;

/** All stops of Tab from the top of the page until it comes round. Throws where it never does: a trap. */
export async function stopsFrom(page: Page): Promise<readonly Stop[]> {
  await page.evaluate(() => {
    (document.activeElement as HTMLElement | null)?.blur();
    window.getSelection()?.removeAllRanges();
    document.body.tabIndex = -1;
    document.body.focus();
    document.body.removeAttribute('tabindex');
    (window as unknown as { seen: Element[] }).seen = [];
  });
  const stops: Stop[] = [];
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press('Tab');
    const stop = await page.evaluate(look);
    if (stop === null) return stops;
    stops.push(stop);
  }
  throw new Error(`Tab did not come round in ${most} stops; the last was ${stops.at(-1)?.name}`);
}

/** Runs in the page. Null once Tab has left the document or is at a stop it has been at. */
function look(): Stop | null {
  const { seen } = window as unknown as { seen: Element[] };
  const element = document.activeElement;
  if (!element || element === document.body || seen.includes(element)) return null;
  const last = seen.at(-1);
  seen.push(element);
  const drawn = [element, element.closest('label')].flatMap((each) => each ?? []);
  const outlined = drawn.some((each) => {
    const { outlineStyle, outlineWidth } = getComputedStyle(each);
    return outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 1;
  });
  const { left, right, top, bottom } = (drawn.at(-1) ?? element).getBoundingClientRect();
  const within = (share: number) =>
    document.elementFromPoint(
      Math.min(Math.max(left + (right - left) * share, 1), innerWidth - 1),
      Math.min(Math.max((top + bottom) / 2, 1), innerHeight - 1),
    );
  const inWindow = [0.1, 0.5, 0.9].some((share) => {
    const found = within(share);
    return found !== null && drawn.some((each) => each.contains(found));
  });
  const name = `${element.tagName} ${element.getAttribute('aria-label') ?? (drawn.at(-1) ?? element).textContent ?? ''}`;
  const follows = last?.compareDocumentPosition(element) ?? Node.DOCUMENT_POSITION_FOLLOWING;
  return {
    name: name.slice(0, 60),
    outlined,
    inWindow,
    afterLast: (follows & Node.DOCUMENT_POSITION_FOLLOWING) !== 0,
  };
}
