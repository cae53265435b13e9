/** Structured marks: GS1 element strings, ISO/IEC 15434 envelopes, unique item identifiers. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeEnvelope, parseEnvelope } from '../../../src/scan/symbology/envelope';
import { makeElementString, parseElementString } from '../../../src/scan/symbology/gs1';
import { identifiedFields, identityFromElements, identityFromFields } from '../../../src/scan/symbology/item-mark';
import { understandPayload } from '../../../src/scan/symbology/understand-payload';

/** In tables: `^` is FNC1 or GS, `~` is RS, `$` is EOT. */
function real(text: string): string {
  return text.replaceAll('^', '\u001d').replaceAll('~', '\u001e').replaceAll('$', '\u0004');
}

function meaningOf(text: string): string {
  const meaning = understandPayload({ payload: real(text), symbology: 'unknown' });
  if (meaning.kind === 'component') return meaning.serial;
  return meaning.kind === 'refused' ? `refused ${meaning.reason}` : meaning.kind;
}

function brackets(data: string): string {
  const parsed = parseElementString(real(data));
  return parsed.ok ? parsed.value.map(({ ai, value }) => `(${ai})${value}`).join('') : parsed.reason;
}

describe('GS1 element strings (gs1-syntax-engine src/c-lib/ai.c, first FNC1 taken off)', () => {
  it.each([
    ['0112345678901231991234', '(01)12345678901231(99)1234'],
    ['0112345678901231^', '(01)12345678901231'],
    ['0112345678901231^991234', '(01)12345678901231(99)1234'],
    ['242123456^', '(242)123456'],
    ['800302112345678900ABC', '(8003)02112345678900ABC'],
    ['800302112345678900', '(8003)02112345678900'],
    ['800302112345678900ABCDEFGHIJKLMNOP', '(8003)02112345678900ABCDEFGHIJKLMNOP'],
    ['1012345^11991225', '(10)12345(11)991225'],
    ['01123456789012311012345', '(01)12345678901231(10)12345'],
    ['17260200', '(17)260200'],
    ['4145412345678908^254BAY-7', '(414)5412345678908(254)BAY-7'],
    ['00006141411234567890', '(00)006141411234567890'],
    ['800495011015300012345', '(8004)95011015300012345'],
    ['0112345678901234', 'check-wrong'],
    ['011234567890123', 'gs1-length'],
    ['800302112345678901ABC', 'check-wrong'],
    ['800302112345678900ABCDEFGHIJKLMNOPQ', 'gs1-length'],
    ['800312112345678900', 'gs1-character'],
    ['891234', 'gs1-unknown-identifier'],
    ['00123456789012345670', 'check-wrong'],
    ['17261300', 'gs1-character'],
    ['17260240', 'gs1-character'],
    ['01123456789012AB', 'gs1-character'],
    ['10AB^^21X', 'gs1-unknown-identifier'],
    ['21', 'gs1-length'],
    ['21A B', 'gs1-character'],
    ['', 'gs1-empty'],
  ])('%s -> %s', (data, expected) => {
    expect(brackets(data)).toBe(expected);
  });

  it('come back as they were made', () => {
    const text = (max: number) =>
      fc.string({ unit: fc.constantFrom(...'!"%&\'()*+,-./09:;<=>?AZ_az'), minLength: 1, maxLength: max });
    const element = fc.oneof(
      fc.constant({ ai: '01', value: '12345678901231' }),
      fc.constant({ ai: '00', value: '006141411234567890' }),
      fc.constant({ ai: '414', value: '5412345678908' }),
      fc.constant({ ai: '17', value: '260200' }),
      text(20).map((value) => ({ ai: '10', value })),
      text(20).map((value) => ({ ai: '21', value })),
      text(20).map((value) => ({ ai: '254', value })),
      text(20).map((value) => ({ ai: '8002', value })),
      text(30).map((value) => ({ ai: '8004', value })),
      text(16).map((value) => ({ ai: '8003', value: `02112345678900${value}` })),
    );
    fc.assert(
      fc.property(fc.array(element, { minLength: 1, maxLength: 6 }), (elements) => {
        expect(parseElementString(makeElementString(elements))).toEqual({ ok: true, value: elements });
      }),
    );
    expect(() => makeElementString([{ ai: '01', value: '12345678901234' }])).toThrow('Broken assumption');
  });
});

describe('GS1 scan data (gs1-syntax-engine src/c-lib/scandata.c): the item it names', () => {
  it.each([
    [']C1011231231231233310ABC123^99TESTING', 'refused no-serial'],
    [']d2011231231231233310ABC123^99TESTING', 'refused no-serial'],
    [']Q3011231231231233310ABC123^99TESTING', 'refused no-serial'],
    [']e0011231231231233310ABC123^99TESTING', 'refused no-serial'],
    [']d1011231231231233310ABC123', 'refused unknown'],
    [']Q1011231231231233310ABC123', 'refused unknown'],
    [']E02112345678900', 'refused no-serial'],
    [']E02112345678901', 'refused check-wrong'],
    [']E402345673', 'refused no-serial'],
    [']E402345674', 'refused check-wrong'],
    [']E40234567', 'refused check-wrong'],
    [']E4023456730', 'refused check-wrong'],
    [']C1', 'refused gs1-empty'],
    [']d2', 'refused gs1-empty'],
    [']e0', 'refused gs1-empty'],
    [']C10109501101530003^21QC-204-118', 'QC-204-118'],
    [']C1010950110153000321QC-204-118^', 'QC-204-118'],
    ['^010950110153000321QC-204-118', 'QC-204-118'],
    [']d28003095011015300030BAG77'.replace('095011015300030', '09501101530003'), 'BAG77'],
    [']d2800495011015QC-204', '95011015QC-204'],
    [']d28002A1B2C3', 'A1B2C3'],
    [']d280030950110153000', 'refused gs1-length'],
    [']d2800309501101530003', 'refused no-serial'],
    [']C121QC-204-118', 'refused no-serial'],
    [']C1010950110153000321A1^21A2', 'refused two-serials'],
    [']d28004ABC^8002DEF', 'refused two-serials'],
    [']d28004ABC^21DEF', 'refused two-serials'],
    [']C10109501101530004^21QC-204-118', 'refused check-wrong'],
    // A long serial is a serial: only 8003 has a key before it.
    [']C1010950110153000321QC-204-118-A7-2026', 'QC-204-118-A7-2026'],
    [']d28003095011015300031^0109501101530003', '1'],
    [']C18004ABC^21ABC', 'ABC'],
  ])('%s -> %s', (payload, expected) => {
    expect(meaningOf(payload)).toBe(expected);
  });

  it('has FNC1 where an element does not end by its length, and nowhere else', () => {
    const elements = [
      { ai: '01', value: '09501101530003' },
      { ai: '21', value: 'QC-1' },
      { ai: '10', value: 'L7' },
      { ai: '17', value: '260200' },
      { ai: '254', value: 'B' },
    ];
    expect(makeElementString(elements)).toBe(real('010950110153000321QC-1^10L7^17260200254B'));
    expect(makeElementString(elements.slice(0, 1))).toBe('0109501101530003');
  });

  it('8002, 8003 and 8004 stand for the unique item identifier (MIL-STD-130N)', () => {
    expect(identityFromElements([{ ai: '8004', value: '061414101' }])).toEqual({
      ok: true,
      value: { serial: '061414101', uii: '061414101' },
    });
  });
});

/** The identifier and serial of the first envelope of a message. */
function identityOf(message: string) {
  const parsed = parseEnvelope(real(message));
  if (!parsed.ok) return parsed.reason;
  const [envelope] = parsed.value;
  if (envelope === undefined || envelope.format === '05') return 'no fields';
  const fields = identifiedFields(envelope.format, envelope.fields);
  if (!fields.ok) return fields.reason;
  const identity = identityFromFields(fields.value);
  return identity.ok ? `${identity.value.uii ?? 'none'} serial ${identity.value.serial}` : identity.reason;
}

describe('unique item identifiers (MIL-STD-130N table A-II)', () => {
  it.each([
    ['[)>~12^MFR 0CVA5^SER 674A36458~$', 'D0CVA5674A36458 serial 674A36458', 'uidlaser.com, IUID string'],
    ['[)>~12^CAG A3309^SER 1234567~$', 'DA33091234567 serial 1234567', 'bradyid.com, Encoding UII Data'],
    ['[)>~12^MFR 0CVA5^SER 786950~$', 'D0CVA5786950 serial 786950', 'technifor.com, after DoD UID 101'],
    ['[)>~06^12V194532636^1P1234^S786950~$', 'UN1945326361234786950 serial 786950', 'technifor.com, after DoD UID 101'],
    ['[)>~12^CAG 7A720^SER 00000001~$', 'D7A72000000001 serial 00000001', 'a2btracking.com, construct 1'],
    ['[)>~06^18S7A72000000001~$', 'D7A72000000001 serial 00000001', 'table A-II row 18S'],
    ['[)>~06^25SD7A72000000001~$', 'D7A72000000001 serial 00000001', 'table A-II row 25S'],
    ['[)>~06^25SUN194532636786950~$', 'UN194532636786950 serial 786950', 'table A-II row 25S, DUNS'],
    ['[)>~06^25S0614141ABC~$', '0614141ABC serial 0614141ABC', 'table A-II row 25S, GS1 prefix of unknown length'],
    ['[)>~06^17V0CVA5^1P1234^S786950~$', 'D0CVA51234786950 serial 786950', 'table A-II row 17V'],
    ['[)>~06^17V0CVA5^1TLOT7^S786950~$', 'D0CVA5LOT7786950 serial 786950', 'table A-II row 17V with 1T'],
    ['[)>~06^3V0614141^1P1234^S786950~$', '06141411234786950 serial 786950', 'table A-II row 3V'],
    ['[)>~06^7LW12345^1P1234^S786950~$', 'LDW123451234786950 serial 786950', 'table A-II row 7L'],
    ['[)>~06^18VD0CVA5^1P1234^S786950~$', 'D0CVA51234786950 serial 786950', 'table A-II row 18V'],
    ['[)>~06^I1M8GDM9AXKP042788~$', '1M8GDM9AXKP042788 serial 1M8GDM9AXKP042788', 'table A-II row I'],
    ['[)>~06^22S0123456789~$', '0123456789 serial 0123456789', 'table A-II row 22S'],
    ['[)>~12^DUN 194532636^PNO 1234^SEQ 786950~$', 'UN1945326361234786950 serial 786950', 'construct 2 in format 12'],
    ['[)>~12^EUC 0614141^PNO 1234^SEQ 7~$', '061414112347 serial 7', 'construct 2, GS1 enterprise'],
    [
      '[)>~06^17V0CVA5^1P1234^30P9999^S786950~$',
      'D0CVA51234786950 serial 786950',
      '30P is a current number, never a part',
    ],
    ['[)>~06^17V0CVA5^1TLOT7^30TLOT9^S786950~$', 'D0CVA5LOT7786950 serial 786950', '30T traces a lot, never a part'],
    ['[)>~12^CAG 7A720^UCN 00000001~$', 'D7A72000000001 serial 00000001', 'UCN is a serial of construct 1'],
    ['[)>~06^18S0CVA57^1P99^S7~$', 'D0CVA57 serial 7', 'a whole identifier wins (Change 1)'],
    ['[)>~12^SPL 0CVA5^SER 7~$', 'D0CVA57 serial 7', 'SPL is an enterprise'],
    ['[)>~12^CAG 7A720^PNO 99^SER 7~$', 'D7A7207 serial 7', 'construct 1 has no part in it'],
    ['[)>~06^IDM8GDM9AXKP042788~$', 'DM8GDM9AXKP042788 serial DM8GDM9AXKP042788', 'a vehicle has no enterprise'],
    ['[)>~06^22SD123456789~$', 'D123456789 serial D123456789', 'an electronic serial number has none either'],
    ['[)>~06^1P9^IDM8GDM9AXKP042788~$', 'DM8GDM9AXKP042788 serial DM8GDM9AXKP042788', 'whatever stands beside it'],
    ['[)>~06^25SD0CVA5~$', 'D0CVA5 serial D0CVA5', 'an enterprise without a serial inside: all of it'],
    ['[)>~06^SQC-204-118~$', 'none serial QC-204-118', 'a serial alone is no identifier'],
    ['[)>~06^17V0CVA5^S786950~$', 'none serial 786950', 'construct 2 lacks its part'],
    ['[)>~06^17V0CVA5^1P1234~$', 'no-serial', 'no serial at all'],
    ['[)>~06^S1^S2~$', 'two-serials', 'never two serials'],
    ['[)>~12^SER 1^SEQ 2~$', 'two-serials', 'both constructs'],
    ['[)>~06^18SAAAAA1^18SAAAAA2~$', 'two-serials', 'two whole identifiers'],
    ['[)>~06^17V0CVA5^12V194532636^1P1^S1~$', 'two-serials', 'two enterprises'],
    ['[)>~06^18Slower~$', 'uii-invalid', 'only A-Z 0-9 - /'],
    [`[)>~06^17V0CVA5^1P${'1'.repeat(45)}^S7~$`, 'uii-invalid', '51 characters'],
    ['[)>~06^?~$', 'mark-broken', 'no data identifier'],
    ['[)>~12^SER1~$', 'mark-broken', 'format 12 has a space after its identifier'],
    ['[)>~06^?S1~$', 'mark-broken', 'a sign before the data identifier'],
    ['[)>~06^1234S1~$', 'mark-broken', 'four digits before the letter'],
    ['[)>~12^xSER 1~$', 'mark-broken', 'a letter before the text element identifier'],
    ['[)>~06^SQC-1\u00072~$', 'mark-broken', 'a control character inside a serial'],
    ['[)>~06^SQC-1\n~$', 'mark-broken', 'a line end behind a serial'],
    ['[)>~12^SER QC-1\u007f~$', 'mark-broken', 'a deleted character'],
    ['[)>~06^SQC-1\u00e4~$', 'mark-broken', 'a letter that is none of ISO/IEC 646'],
    ['[)>~06^S~$', 'mark-broken', 'an identifier without a value'],
  ])('%s -> %s (%s)', (message, expected) => {
    expect(identityOf(message)).toBe(expected);
  });
});

describe('an item and its identifier', () => {
  const whole = (text: string) => understandPayload({ payload: real(text), symbology: 'unknown' });
  const ITEM = { kind: 'component', serial: '7', uii: 'D0CVA57' };
  it.each<[string, string, object]>([
    ['a mark without one', '[)>~06^SQC-1~$', { kind: 'component', serial: 'QC-1' }],
    ['a mark with one', '[)>~06^18S0CVA57~$', ITEM],
    ['only the first of two envelopes has one', '[)>~06^18S0CVA57~12^SER 7~$', ITEM],
    ['only the second of two envelopes has one', '[)>~12^SER 7~06^18S0CVA57~$', ITEM],
    ['only the second of three has one', '[)>~12^SER 7~06^18S0CVA57~12^SER 7~$', ITEM],
    ['both have the same', '[)>~06^18S0CVA57~12^CAG 0CVA5^SER 7~$', ITEM],
  ])('%s', (_, payload, expected) => {
    expect(whole(payload)).toEqual(expected);
  });

  it.each([
    ['two identifiers around the same serial', '[)>~06^18S0CVA57~12^CAG 0CVA6^SER 7~$', 'two-serials'],
    ['the same, with an envelope without one between them', '[)>~06^18S0CVA57~12^SER 7~06^18S0CVA67~$', 'two-serials'],
    ['a second envelope that cannot be understood', '[)>~06^SQC-1~06^?~$', 'mark-broken'],
    ['a second envelope without a serial', '[)>~06^SQC-1~06^1P9~$', 'no-serial'],
    ['a second envelope whose GS1 data are broken', '[)>~06^SQC-1~05^0109501101530004~$', 'check-wrong'],
  ])('%s', (_, payload, reason) => {
    expect(whole(payload)).toMatchObject({ kind: 'refused', reason });
  });
});

describe('envelopes (ISO/IEC 15434)', () => {
  it.each([
    ['[)>~06^SQC-204-118~$', 'QC-204-118'],
    ['[)>~05^800406141417QC~$', '06141417QC'],
    ['[)>~05^0109501101530003^21QC-204-118~$', 'QC-204-118'],
    ['[)>~06^SQC-204-118~12^SER QC-204-118~$', 'QC-204-118'],
    [']d1[)>~06^SQC-204-118~$', 'QC-204-118'],
    ['[)>~06^SQC-204-118~12^SER QC-204-119~$', 'refused two-serials'],
    ['[)>~06^SQC-204-118', 'refused envelope-broken'],
    ['[)>~06^SQC-204-118~', 'refused envelope-broken'],
    ['[)>06^SQC-204-118~$', 'refused envelope-broken'],
    ['[)>~06^^SQC-204-118~$', 'refused envelope-broken'],
    ['[)>~06^SQC$-204-118~$', 'refused envelope-broken'],
    ['[)>~07free text~$', 'refused envelope-format'],
    ['[)>~06SQC-204-118~$', 'refused envelope-format'],
    ['[)>~$', 'refused envelope-broken'],
    ['[)>~~$', 'refused envelope-broken'],
    ['[)>~05^891234~$', 'refused gs1-unknown-identifier'],
    ['[)>~06^9~$', 'refused mark-broken'],
  ])('%s -> %s', (payload, expected) => {
    expect(meaningOf(payload)).toBe(expected);
  });

  it('come back as they were made', () => {
    const field = fc.string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 20 });
    const envelope = fc.record({
      format: fc.constantFrom('05' as const, '06' as const, '12' as const),
      fields: fc.array(field, { minLength: 1, maxLength: 5 }),
    });
    fc.assert(
      fc.property(fc.array(envelope, { minLength: 1, maxLength: 3 }), (envelopes) => {
        expect(parseEnvelope(makeEnvelope(envelopes))).toEqual({ ok: true, value: envelopes });
      }),
    );
    expect(() => makeEnvelope([{ format: '06', fields: ['a\u001db'] }])).toThrow('Broken assumption');
  });
});
