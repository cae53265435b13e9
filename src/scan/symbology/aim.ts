/** AIM symbology identifiers (ISO/IEC 15424): `]`, a code character, a modifier, ahead of the data. */
import type { Symbology } from '../sighting';

/** What the identifier promises of the data after it. */
export type Carrier = 'gs1' | 'plain' | 'retail' | 'unknown';

export interface Carried {
  readonly carrier: Carrier;
  /** Null where there was no identifier: then the reader's own word stands. */
  readonly symbology: Symbology | null;
  readonly data: string;
}

/**
 * ISO/IEC 15424, the identifiers that a loft's readers send. FNC1 in first place makes GS1 data of Code 128 (`]C1`),
 * Data Matrix (`]d2`) and QR (`]Q3`); `]e0` is GS1 DataBar. `]E` is a retail code: it names a product, not an item.
 */
const IDENTIFIERS: Readonly<Record<string, readonly [Carrier, Symbology]>> = {
  ']C0': ['plain', 'code128'],
  ']C1': ['gs1', 'code128'],
  ']C2': ['plain', 'code128'],
  ']A0': ['plain', 'code39'],
  ']A1': ['plain', 'code39'],
  ']A3': ['plain', 'code39'],
  ']d1': ['plain', 'dataMatrix'],
  ']d2': ['gs1', 'dataMatrix'],
  ']Q0': ['plain', 'qr'],
  ']Q1': ['plain', 'qr'],
  ']Q3': ['gs1', 'qr'],
  ']e0': ['gs1', 'unknown'],
  ']E0': ['retail', 'unknown'],
  ']E4': ['retail', 'unknown'],
};

/** Takes the identifier off a payload, if there is one. */
export function takeAimIdentifier(payload: string): Carried {
  if (!payload.startsWith(']')) return { carrier: 'plain', symbology: null, data: payload };
  const known = IDENTIFIERS[payload.slice(0, 3)];
  if (known === undefined) return { carrier: 'unknown', symbology: null, data: payload.slice(3) };
  return { carrier: known[0], symbology: known[1], data: payload.slice(3) };
}
