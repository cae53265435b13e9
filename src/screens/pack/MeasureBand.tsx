/** What is to be measured, and the band in which the value must lie. */
import type { ReactElement } from 'react';
import { inUnit } from '../../domain/quantity';
import type { MeasureView } from '../contract/pack-view';
import { Figure } from '../parts/Figure';
import { TagMark } from '../parts/Shapes';

/** Where the band begins and ends on the drawn tape, of 100. */
const BAND = { from: 30, to: 70 };

type Band = NonNullable<MeasureView['band']>;

/** Position of a value on the drawn tape; values far outside stay at its edge. */
function place({ lowest, highest }: Band, value: number): number {
  const width = highest.value - lowest.value;
  if (width <= 0) return value < lowest.value ? 5 : value > highest.value ? 95 : 50;
  const at = BAND.from + ((value - lowest.value) / width) * (BAND.to - BAND.from);
  return Math.min(97, Math.max(3, at));
}

function Tape({ band, outside: out }: { readonly band: Band; readonly outside: MeasureView['outside'] }): ReactElement {
  const expected = place(band, inUnit(band.expected, band.lowest.unit).value);
  const outside = out === null ? null : place(band, inUnit(out.value, band.lowest.unit).value);
  const ticks = Array.from(
    { length: 33 },
    (_, index) => `M${String(2 + index * 3)} 24v-${index % 4 === 0 ? '7' : '4'}`,
  );
  return (
    <svg className="tape" viewBox="0 0 100 34" aria-hidden="true" focusable="false">
      <rect className="tape-back" x="0.5" y="9" width="99" height="15" />
      <rect className="tape-band" x={BAND.from} y="9" width={BAND.to - BAND.from} height="15" />
      <path className="tape-ticks" d={ticks.join('')} />
      <path className="tape-expected" d={`M${String(expected)} 5v19`} />
      {outside === null ? null : <path className="tape-outside" d={`M${String(outside)} 24l-4 8h8z`} />}
    </svg>
  );
}

function Outside({ outside }: { readonly outside: NonNullable<MeasureView['outside']> }): ReactElement {
  const { value, deviation, unit } = outside;
  return (
    <p className="measure-outside">
      <TagMark />
      <span>
        <Figure quantity={value} /> is out: <Figure quantity={{ value: Math.abs(deviation), unit }} /> too{' '}
        {deviation > 0 ? 'long' : 'short'}
      </span>
    </p>
  );
}

/** Before a reading only what is measured; afterwards the expected value, its band, and how far the reading lay out. */
export function MeasureBand({ measure }: { readonly measure: MeasureView }): ReactElement {
  const { what, band, outside } = measure;
  return (
    <section className="ledger ledger-short" aria-label="Measurement">
      <p className="measure-what">{what}</p>
      {band === null ? (
        <p className="ledger-next">Measure first: what is expected is shown afterwards.</p>
      ) : (
        <>
          <p className="ledger-count">
            <strong>
              <Figure quantity={band.expected} />
            </strong>
          </p>
          <p className="ledger-next">
            from <Figure quantity={band.lowest} /> to <Figure quantity={band.highest} />
          </p>
          <Tape band={band} outside={outside} />
        </>
      )}
      {outside === null ? null : <Outside outside={outside} />}
    </section>
  );
}
