import { For } from 'solid-js';
import { Term } from './Term.tsx';
import { explained } from './terms.ts';

/** The words of a part of a view that not every reader knows, each opening its meaning. */
export function TermLine(props: { readonly of: readonly string[] }) {
  return (
    <p class="term-line">
      What the words mean:{' '}
      <For each={props.of}>
        {(term, i) => (
          <>
            {i() === 0 ? '' : ', '}
            <Term of={term}>{midSentence(explained(term).words)}</Term>
          </>
        )}
      </For>
      .
    </p>
  );
}

/** *Drainage state* as *drainage state*; *RMSE* stays. */
const midSentence = (words: string): string =>
  /^[A-Z][a-z]/.test(words) ? words.charAt(0).toLowerCase() + words.slice(1) : words;
