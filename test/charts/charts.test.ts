import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Drawing, openDrawing } from './drawn.ts';
import { answerOf, middling } from './scene.ts';

let drawing: Drawing;
beforeAll(async () => {
  drawing = await openDrawing();
});
afterAll(() => drawing.close());

const quiet = { pending: false, onPreview: () => {}, onCommit: () => {} };
const nothing = { on: {}, search: '' };
const draw = (props: object) =>
  drawing.draw({ ...quiet, filters: nothing, units: 'metric', ...props });
const lines = (html: string, what: RegExp) => html.split('\n').filter((line) => what.test(line));

describe('the four linked views', () => {
  test('without a condition, as drawn', async () => {
    await expect(draw({ answer: answerOf() })).toMatchFileSnapshot('drawn/open.html');
  });

  test('with the index brushed and a cell chosen, as drawn', async () => {
    const filters = {
      on: {
        index: { from: 25, below: 60 },
        material: { among: ['stucco'] },
        installed_used: { below: 1980 },
      },
      search: '',
    };
    const answer = answerOf({ all: middling, density: middling, matrix: middling, bars: middling });
    await expect(draw({ answer, filters, units: 'american' })).toMatchFileSnapshot(
      'drawn/brushed.html',
    );
  });

  test('say that they are counting before there are counts', () => {
    expect(lines(draw({ answer: undefined }), /Counting …/)).toHaveLength(4);
  });

  test('say why there are none', () => {
    const html = draw({ answer: undefined, trouble: 'The engine stopped.' });
    expect(html).toContain('role="alert"');
    expect(html).toContain('The engine stopped.');
  });

  test('say that no building is here, of an empty portfolio and under filters that none passes', () => {
    expect(draw({ answer: { ...answerOf(), n: 0 } })).toContain('No building here.');
    const none = new Uint8Array(middling.length);
    const html = draw({ answer: answerOf({ all: none, density: none }) });
    expect(lines(html, /No building here under the other filters/)).toHaveLength(1);
  });

  test('each table is one stop of the Tab key, each brush has a slider for either end', () => {
    const html = draw({ answer: answerOf() });
    expect(lines(html, /<button.* tabindex="0"/)).toHaveLength(2);
    expect(lines(html, /<input type="range"/)).toHaveLength(6);
  });
});
