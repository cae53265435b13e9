/**
 * The GS1 application identifiers that a component's label can carry: length, characters and check.
 * A table of our own, because the only parser on the registry made for this is thinly used, and an identifier that
 * is not here must be refused, not skipped. Values: GS1 General Specifications section 3, GS1 syntax dictionary.
 */

export interface ApplicationIdentifier {
  readonly ai: string;
  /** Digits that come first, always all of them; 0 for none. */
  readonly digits: number;
  /** How many of those digits (from `checkFrom`) end in a check digit; 0 for no check. */
  readonly checked: number;
  readonly checkFrom: number;
  /** Most characters of free text after the digits, and fewest. */
  readonly textMax: number;
  readonly textMin: number;
  /** Ends by its length alone (GS1 General Specifications figure 7.8.5-2); otherwise by FNC1 or the end. */
  readonly predefined: boolean;
  /** Six digits of a date, day 00 allowed. */
  readonly date: boolean;
}

type Parts = Partial<Omit<ApplicationIdentifier, 'ai'>>;

function row(ai: string, parts: Parts): ApplicationIdentifier {
  return {
    ai,
    digits: 0,
    checked: 0,
    checkFrom: 0,
    textMax: 0,
    textMin: 0,
    predefined: false,
    date: false,
    ...parts,
  };
}

const key = (ai: string, digits: number, predefined: boolean) => row(ai, { digits, checked: digits, predefined });
const date = (ai: string) => row(ai, { digits: 6, predefined: true, date: true });
const text = (ai: string, textMax: number) => row(ai, { textMax, textMin: 1 });

const ROWS: readonly ApplicationIdentifier[] = [
  key('00', 18, true),
  key('01', 14, true),
  key('02', 14, true),
  text('10', 20),
  ...['11', '12', '13', '15', '16', '17'].map(date),
  row('20', { digits: 2, predefined: true }),
  text('21', 20),
  text('22', 20),
  text('240', 30),
  text('241', 30),
  text('242', 6),
  text('250', 30),
  text('251', 30),
  text('254', 20),
  ...['410', '411', '412', '413', '414', '415', '416', '417'].map((ai) => key(ai, 13, true)),
  text('90', 30),
  ...['91', '92', '93', '94', '95', '96', '97', '98', '99'].map((ai) => text(ai, 90)),
  text('8002', 20),
  // A GRAI: one zero, thirteen digits with their check, then the serial (may be absent).
  row('8003', { digits: 14, checked: 13, checkFrom: 1, textMax: 16 }),
  text('8004', 30),
];

const BY_AI = new Map(ROWS.map((entry) => [entry.ai, entry]));

/** The identifier that `data` begins with; null where none of the table does. None is another's beginning. */
export function identifierAt(data: string): ApplicationIdentifier | null {
  for (const length of [2, 3, 4]) {
    const found = BY_AI.get(data.slice(0, length));
    if (found !== undefined) return found;
  }
  return null;
}
