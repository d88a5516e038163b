import { createUniqueId, type JSX } from 'solid-js';

/**
 * A table in a stretch of its own that scrolls. What it shows is said above it and not in a caption, which would scroll
 * away with the columns.
 */
export function Sheet(props: {
  readonly says: string;
  readonly class: string;
  readonly children: JSX.Element;
}) {
  const id = createUniqueId();
  return (
    <>
      <p class="exposure-says" id={id}>
        {props.says}
      </p>
      <section class="exposure-scroll" tabindex={0} aria-labelledby={id}>
        <table class={props.class} aria-labelledby={id}>
          {props.children}
        </table>
      </section>
    </>
  );
}
