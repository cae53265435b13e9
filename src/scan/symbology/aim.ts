/** AIM symbology identifiers (ISO/IEC 15424): `]`, a code character, a modifier, ahead of the data. */

/** What the identifier promises of the data after it. */
export type Carrier = 'gs1' | 'plain' | 'retail' | 'unknown';

export interface Carried {
  readonly carrier: Carrier;
  readonly data: string;
}

/**
 * ISO/IEC 15424, the identifiers that a loft's readers send. FNC1 in first place makes GS1 data of Code 128 (`]C1`),
 * Data Matrix (`]d2`) and QR (`]Q3`); `]e0` is GS1 DataBar. `]E` is a retail code: it names a product, not an item.
 */
const IDENTIFIERS: Readonly<Record<string, Carrier>> = {
  ']C0': 'plain',
  ']C1': 'gs1',
  ']C2': 'plain',
  ']A0': 'plain',
  ']A1': 'plain',
  ']A3': 'plain',
  ']d1': 'plain',
  ']d2': 'gs1',
  ']Q0': 'plain',
  ']Q1': 'plain',
  ']Q3': 'gs1',
  ']e0': 'gs1',
  ']E0': 'retail',
  ']E4': 'retail',
};

/** Takes the identifier off a payload, if there is one. */
export function takeAimIdentifier(payload: string): Carried {
  if (!payload.startsWith(']')) return { carrier: 'plain', data: payload };
  return { carrier: IDENTIFIERS[payload.slice(0, 3)] ?? 'unknown', data: payload.slice(3) };
}
