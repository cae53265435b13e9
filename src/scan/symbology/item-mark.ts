/** From a mark's identified fields to the item: its serial, and its unique item identifier by MIL-STD-130N table A-II. */
import { ok, refused } from '../../domain/result';
import type { Result } from '../../domain/result';
import type { EnvelopeFormat } from './envelope';
import type { Element } from './gs1';

/** One field: a data identifier (`1P`), text element identifier (`SER`) or application identifier (`21`), and value. */
export type Field = Element;

export interface ItemIdentity {
  /** The serial that the mark names. */
  readonly serial: string;
  /** The unique item identifier; null where the mark does not carry one. */
  readonly uii: string | null;
}

export type ItemFault = 'mark-broken' | 'no-serial' | 'two-serials' | 'uii-invalid';

/** The formats whose fields name themselves; those of 05 are read as GS1 data. */
export type FieldFormat = Exclude<EnvelopeFormat, '05'>;

/**
 * Format 06: digits and a letter, then the value. Format 12: three letters, a space, then the value. A value is made of
 * printable characters of ISO/IEC 646 alone: what nobody can see cannot be compared with the component.
 */
const SHAPES: Readonly<Record<FieldFormat, RegExp>> = {
  '06': /^(\d{0,3}[A-Z])([ -~]+)$/,
  '12': /^([A-Z]{3}) ([ -~]+)$/,
};

/** Splits format 06 and 12 fields into identifier and value. */
export function identifiedFields(format: FieldFormat, texts: readonly string[]): Result<readonly Field[], ItemFault> {
  const fields: Field[] = [];
  for (const text of texts) {
    const match = SHAPES[format].exec(text);
    const [, ai, value] = match ?? [];
    if (ai === undefined || value === undefined) {
      return refused('mark-broken', 'A part of this mark cannot be understood. Scan it again.');
    }
    fields.push({ ai, value });
  }
  return ok(fields);
}

/**
 * MIL-STD-130N table A-II, left column: identifiers of the enterprise, and the issuing agency code put before each.
 * 18V, 25S, 3V and EUC hold it already (a GS1 company prefix is not given one).
 */
const ENTERPRISE: Readonly<Record<string, string>> = {
  '17V': 'D',
  '12V': 'UN',
  '3V': '',
  '7L': 'LD',
  '18V': '',
  CAG: 'D',
  MFR: 'D',
  SPL: 'D',
  DUN: 'UN',
  EUC: '',
};
/** Original part, lot or batch. `30P` and `30T` are current numbers and are never part of the identifier. */
const PART = ['1P', '1T', 'PNO'];
/** Serial within the part number (construct 2), and within the enterprise (construct 1). */
const SERIAL_IN_PART = ['S', 'SEQ'];
const SERIAL_IN_ENTERPRISE = ['SER', 'UCN'];
/** Whole identifiers, with what is put before them. `I` is a vehicle's, `22S` an electronic serial number. */
const WHOLE: Readonly<Record<string, string>> = { '18S': 'D', '25S': '', I: '', '22S': '' };

/** Length of the enterprise's own code after the issuing agency code (CAGE and NCAGE: 5; DUNS: 9; DoDAAC: 6). */
const AGENCIES: readonly (readonly [string, number])[] = [
  ['UN', 9],
  ['LD', 6],
  ['D', 5],
];

/** At most 50 characters of A-Z, 0-9, hyphen and slash (MIL-STD-130N; DFARS 252.211-7003). */
function isUii(text: string): boolean {
  return /^[A-Z0-9\-/]{1,50}$/.test(text);
}

/** The serial inside a whole identifier; all of it where the enterprise's part has no fixed length. */
function serialInside(uii: string): string {
  for (const [agency, length] of AGENCIES) {
    const serial = uii.slice(agency.length + length);
    if (uii.startsWith(agency) && serial !== '') return serial;
  }
  return uii;
}

/** The only value under any of these identifiers; null for none, undefined where two differ. */
function onlyOf(fields: readonly Field[], names: readonly string[]): string | null | undefined {
  const values = new Set(fields.filter((field) => names.includes(field.ai)).map((field) => field.value));
  if (values.size > 1) return undefined;
  return [...values][0] ?? null;
}

function wholeIdentity(fields: readonly Field[]): Result<ItemIdentity, ItemFault> | null {
  const wholes = new Set<string>();
  for (const { ai, value } of fields) {
    const before = WHOLE[ai];
    if (before !== undefined) wholes.add(before + value);
  }
  if (wholes.size > 1)
    return refused('two-serials', 'This mark names two items. Set the component aside and report it.');
  const uii = [...wholes][0];
  if (uii === undefined) return null;
  if (!isUii(uii)) return refused('uii-invalid', 'The item identifier on this mark is not a valid one.');
  const plain = fields.some((field) => field.ai === 'I' || field.ai === '22S');
  return ok({ serial: plain ? uii : serialInside(uii), uii });
}

/** The item that a format 06 or 12 mark names. A whole identifier wins; two different serials are refused. */
export function identityFromFields(fields: readonly Field[]): Result<ItemIdentity, ItemFault> {
  const whole = wholeIdentity(fields);
  if (whole !== null) return whole;
  const enterprises = fields.flatMap(({ ai, value }) => {
    const before = ENTERPRISE[ai];
    return before === undefined ? [] : [before + value];
  });
  const inPart = onlyOf(fields, SERIAL_IN_PART);
  const inEnterprise = onlyOf(fields, SERIAL_IN_ENTERPRISE);
  const part = onlyOf(fields, PART);
  if (inPart === undefined || inEnterprise === undefined || part === undefined || new Set(enterprises).size > 1) {
    return refused('two-serials', 'This mark names two items. Set the component aside and report it.');
  }
  if (inPart !== null && inEnterprise !== null) {
    return refused('two-serials', 'This mark carries two serials. Set the component aside and report it.');
  }
  const serial = inPart ?? inEnterprise;
  if (serial === null) return refused('no-serial', 'This mark has no serial. Scan the mark that has one.');
  const enterprise = enterprises[0];
  if (enterprise === undefined || (inPart !== null && part === null)) return ok({ serial, uii: null });
  const uii = inPart === null ? enterprise + serial : enterprise + (part ?? '') + serial;
  return isUii(uii)
    ? ok({ serial, uii })
    : refused('uii-invalid', 'The item identifier on this mark is not a valid one.');
}

/** AIs 8002, 8003 and 8004 are equivalents of the unique item identifier (MIL-STD-130N). */
function equivalentOf(element: Element): ItemIdentity | null {
  if (element.ai === '8002' || element.ai === '8004') return { serial: element.value, uii: element.value };
  if (element.ai !== '8003' || element.value.length <= 14) return null;
  return { serial: element.value.slice(14), uii: element.value };
}

/** The item that GS1 elements name: a GIAI, GRAI or ESN, or a serial beside its GTIN. */
export function identityFromElements(elements: readonly Element[]): Result<ItemIdentity, ItemFault> {
  const found = elements.flatMap((element) => equivalentOf(element) ?? []);
  const named = new Map(found.map((identity) => [identity.uii, identity]));
  const serial = onlyOf(elements, ['21']);
  if (named.size > 1 || serial === undefined) {
    return refused('two-serials', 'This label names two items. Set the component aside and report it.');
  }
  const [equivalent] = named.values();
  if (equivalent !== undefined) {
    if (serial !== null && serial !== equivalent.serial) {
      return refused('two-serials', 'This label carries two serials. Set the component aside and report it.');
    }
    return ok(equivalent);
  }
  if (serial === null)
    return refused('no-serial', 'This label names a product, not an item. Scan the mark with the serial.');
  if (onlyOf(elements, ['01']) === null) {
    return refused('no-serial', 'This label has a serial but does not say of what. Scan another mark of it.');
  }
  return ok({ serial, uii: null });
}
