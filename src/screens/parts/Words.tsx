/** A sentence in which serials and lengths stay in one piece: a serial broken at its dash is read wrongly. */
import type { ReactElement } from 'react';

/** Serials such as QH-K-0093, and lengths such as 37 1/4 in. */
const WHOLE = /([A-Z0-9]+(?:-[A-Z0-9]+)+|\d+(?:\.\d+)?(?: \d+\/\d+)? (?:in|ft|cm|mm)\b|\d{4}-\d\d-\d\d)/;

/** The text, unchanged; only where its lines may break is narrowed. */
export function Words({ text }: { readonly text: string }): ReactElement {
  return (
    <>
      {text.split(WHOLE).map((part, index) =>
        // Every second part is one that the pattern matched.
        index % 2 === 1 ? (
          <span key={index} className="whole">
            {part}
          </span>
        ) : (
          part
        ),
      )}
    </>
  );
}
