/**
 * A short note, written by finger. Keys of its own and no text field: what a keyboard-style scanner types must never
 * become part of a note, and digits from a keyboard choose from the list above.
 */
import type { ReactElement } from 'react';

/** Letters on the left, figures on the right, as a telephone has them: few rows, so that the whole pad is seen. */
const ROWS = ['qwertyuiop123', 'asdfghjkl-456', 'zxcvbnm,.0789'];

interface NotePadProps {
  readonly note: string;
  /** Most characters. */
  readonly max: number;
  /** Number of the option that the note goes with. */
  readonly option: number;
  readonly write: (note: string) => void;
}

/** What has been written so far, and the letters. */
export function NotePad({ note, max, option, write }: NotePadProps): ReactElement {
  const add = (sign: string): void => {
    if (note.length < max) write(note + sign);
  };
  return (
    <section className="note" aria-label="Written note">
      <p className="note-text">
        <span className="note-caption">
          Note with finding {option}, at most {max} characters:
        </span>{' '}
        {note === '' ? <span className="pad-empty">nothing written</span> : <output>{note}</output>}
      </p>
      <div className="note-ends">
        <button type="button" className="pad-key" onClick={() => add(' ')}>
          space
        </button>
        <button type="button" className="pad-key" onClick={() => write(note.slice(0, -1))}>
          rub out
        </button>
      </div>
      <div className="note-keys">
        {ROWS.map((row) => (
          <div className="note-row" key={row}>
            {[...row].map((sign) => (
              <button type="button" className="pad-key" key={sign} onClick={() => add(sign)}>
                {sign}
              </button>
            ))}
          </div>
        ))}
      </div>
    </section>
  );
}
