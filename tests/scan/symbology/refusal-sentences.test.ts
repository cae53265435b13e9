/** What a rigger is told about a label that is refused: every sentence, and the bounds between what is taken and what is not. */
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import { takeAimIdentifier } from '../../../src/scan/symbology/aim';
import { looksLikeBadge, makeBadgePayload } from '../../../src/scan/symbology/badge';
import { makeCardPayload, parseCardPayload } from '../../../src/scan/symbology/card';
import { makeEnvelope } from '../../../src/scan/symbology/envelope';
import { makeElementString } from '../../../src/scan/symbology/gs1';
import { isPlainSerial } from '../../../src/scan/symbology/serial';
import { understandPayload } from '../../../src/scan/symbology/understand-payload';

/** In tables: `^` is FNC1 or GS, `~` is RS, `$` is EOT. */
function real(text: string): string {
  return text.replaceAll('^', '\u001d').replaceAll('~', '\u001e').replaceAll('$', '\u0004');
}

function sentenceOf(text: string, symbology = 'unknown'): string {
  const settings = { code39Check: ['component' as const] };
  const meaning = understandPayload({ payload: real(text), symbology }, settings);
  return meaning.kind === 'refused' ? `${meaning.reason}: ${meaning.detail}` : `accepted as ${meaning.kind}`;
}

const GTIN = '0109501101530003';
const TWO_ON_MARK = 'two-serials: This mark names two items. Set the component aside and report it.';
const NOT_TO_ITS_END = 'envelope-broken: This mark was not read to its end. Scan it again.';
const NO_UII = 'uii-invalid: The item identifier on this mark is not a valid one.';

describe('a label that is refused says what is wrong and what to do', () => {
  it.each([
    ['', 'empty: Nothing was read. Scan it again.'],
    ['x'.repeat(513), 'too-long: This code is too long for any label of the loft.'],
    ['x'.repeat(512), 'unknown: This is no label, badge or card of the loft. Scan another mark of it.'],
    [']X0QC-204-118', 'unknown: This kind of code is not used in the loft.'],
    ['QC\u0007', 'control-characters: This label has characters that cannot be printed. Scan another mark of it.'],
    ['qc-204-118', 'small-letters: The label came in small letters. Switch the caps lock off and scan it again.'],
    [']E02112345678901', 'check-wrong: The check digit does not fit. Scan it again.'],
    [']E02112345678900', 'no-serial: This code names a product, not an item. Scan the mark with the serial.'],
    [']A0QC-204-118', 'check-wrong: The check character does not fit. Scan it again.'],
    ['SC:x', 'card-unknown: This card is none of the commands. Use the command card of this loft, or say it.'],
    ['[)>~06^SQC', NOT_TO_ITS_END],
    ['[)>~07text~$', 'envelope-format: This mark is written in a form that names no item here.'],
    ['[)>~06^?~$', 'mark-broken: A part of this mark cannot be understood. Scan it again.'],
    ['[)>~06^SA-1~12^SER A-2~$', TWO_ON_MARK],
    ['[)>~06^S1^S2~$', TWO_ON_MARK],
    ['[)>~06^17V0CVA5^12V194532636^1P1^S1~$', TWO_ON_MARK],
    ['[)>~06^1P1^1P2^S1~$', TWO_ON_MARK],
    ['[)>~12^SER 1^UCN 2~$', TWO_ON_MARK],
    ['[)>~06^18SAAAAA1^18SAAAAA2~$', TWO_ON_MARK],
    ['[)>~12^SER 1^SEQ 2~$', 'two-serials: This mark carries two serials. Set the component aside and report it.'],
    ['[)>~06^17V0CVA5^1P1~$', 'no-serial: This mark has no serial. Scan the mark that has one.'],
    ['[)>~06^18Slower~$', NO_UII],
    ['[)>~06^17V0CVA5^1Pa^S7~$', NO_UII],
    [']C1', 'gs1-empty: The label says that it is GS1, but it is empty.'],
    [']C1891234', 'gs1-unknown-identifier: The label has an element that this loft does not know.'],
    [']C101123', "gs1-length: The label's element (01) has a wrong length. Scan it again."],
    [']C121A B', "gs1-character: The label's element (21) has a character that cannot be there."],
    [']C117261300', "gs1-character: The label's element (17) is no date. Scan it again."],
    [']C10109501101530004', 'check-wrong: The check digit does not fit. Scan it again.'],
    [`]C1${GTIN}`, 'no-serial: This label names a product, not an item. Scan the mark with the serial.'],
    [']C121QC-1', 'no-serial: This label has a serial but does not say of what. Scan another mark of it.'],
    [`]C1${GTIN}21A1^21A2`, 'two-serials: This label names two items. Set the component aside and report it.'],
    [']C18004ABC^8002DEF', 'two-serials: This label names two items. Set the component aside and report it.'],
    [']C18004ABC^21DEF', 'two-serials: This label carries two serials. Set the component aside and report it.'],
  ])('%j', (payload, sentence) => {
    expect(sentenceOf(payload)).toBe(sentence);
  });

  it('and the check of Code 39 is asked of nothing else', () => {
    expect(sentenceOf('QC-204-118', 'code39')).toBe('check-wrong: The check character does not fit. Scan it again.');
    expect(sentenceOf('QC-204-118', 'code128')).toBe('accepted as component');
    expect(understandPayload({ payload: 'QC-204-118', symbology: 'code39' })).toMatchObject({ kind: 'component' });
  });
});

describe('identifiers of the carrier (ISO/IEC 15424)', () => {
  it.each([
    [']C0', 'accepted as component'],
    [']C2', 'accepted as component'],
    [']A3', 'accepted as component'],
    [']d1', 'accepted as component'],
    [']Q0', 'accepted as component'],
    [']Q1', 'accepted as component'],
    // The loft of this test checks Code 39, whose check these lack.
    [']A0', 'check-wrong: The check character does not fit. Scan it again.'],
    [']A1', 'check-wrong: The check character does not fit. Scan it again.'],
    // A plain serial is no GS1 data and no retail code.
    [']C1', 'gs1-unknown-identifier: The label has an element that this loft does not know.'],
    [']d2', 'gs1-unknown-identifier: The label has an element that this loft does not know.'],
    [']Q3', 'gs1-unknown-identifier: The label has an element that this loft does not know.'],
    [']e0', 'gs1-unknown-identifier: The label has an element that this loft does not know.'],
    [']E0', 'check-wrong: The check digit does not fit. Scan it again.'],
    [']E4', 'check-wrong: The check digit does not fit. Scan it again.'],
    [']E3', 'unknown: This kind of code is not used in the loft.'],
    [']d3', 'unknown: This kind of code is not used in the loft.'],
  ])('%s before a serial: %s', (identifier, expected) => {
    expect(sentenceOf(`${identifier}QC-204-118`)).toBe(expected);
  });
});

describe('an identifier is taken off, and says what the data are', () => {
  it.each([
    ['QC-1', 'plain', 'QC-1'],
    ['', 'plain', ''],
    [']C0QC-1', 'plain', 'QC-1'],
    [']C1QC-1', 'gs1', 'QC-1'],
    [']C2QC-1', 'plain', 'QC-1'],
    [']A0QC-1', 'plain', 'QC-1'],
    [']A1QC-1', 'plain', 'QC-1'],
    [']A3QC-1', 'plain', 'QC-1'],
    [']d1QC-1', 'plain', 'QC-1'],
    [']d2QC-1', 'gs1', 'QC-1'],
    [']Q0QC-1', 'plain', 'QC-1'],
    [']Q1QC-1', 'plain', 'QC-1'],
    [']Q3QC-1', 'gs1', 'QC-1'],
    [']e0QC-1', 'gs1', 'QC-1'],
    [']E0QC-1', 'retail', 'QC-1'],
    [']E4QC-1', 'retail', 'QC-1'],
    [']z9QC-1', 'unknown', 'QC-1'],
  ])('%s', (payload, carrier, data) => {
    expect(takeAimIdentifier(payload)).toEqual({ carrier, data });
  });
});

describe('what is meant to be a badge is never taken for a serial', () => {
  const badge = makeBadgePayload('7G3KQX0V9TBM52HD');
  it.each([
    ['two characters lost, one misread as a hyphen', 'SB7G3K-X0V9TBM52H', true],
    ['two characters too many, one misread as a hyphen', 'SB7G3K-X0V9TBM52HD0AB', true],
    ['three characters lost, one misread as a hyphen', 'SB7G3K-X0V9TBM52', false],
    ['three characters too many, one misread as a hyphen', 'SB7G3K-X0V9TBM52HD0ABC', false],
    ['as short as can be without a hyphen', 'SB123456789', true],
    ['shorter than that', 'SB12345678', false],
    ['a small letter in a short one', 'SB123456789x', false],
    ['a serial of the loft that begins alike', 'SB-204-118', false],
    ['the star of its check', badge.replace(/.$/, '*'), true],
    ['not at its beginning', `X${badge}`, false],
  ])('%s', (_, payload, expected) => {
    expect(looksLikeBadge(payload)).toBe(expected);
    if (expected) expect(understandPayload({ payload, symbology: 'code128' }).kind).not.toBe('component');
  });

  it('and an identifier that is none makes no badge', () => {
    const belief = 'a badge identifier is 16 Crockford base 32 characters';
    for (const id of ['7G3KQX0V9TBM52H', '7G3KQX0V9TBM52HDX', '-7G3KQX0V9TBM52HD', '7g3kqx0v9tbm52hd']) {
      expect(() => makeBadgePayload(id)).toThrow(belief);
    }
  });
});

describe('plain serials at their bounds', () => {
  it.each([
    ['A-1-2', true],
    ['A--12', false],
    ['AB-1', false],
    ['ABCDEFGHIJKL-1', true],
    ['ABCDEFGHIJKLM-1', false],
    ['1-ABCDEFGHIJKL', true],
    ['1-ABCDEFGHIJKLM', false],
    ['ABCDEFGHIJK-LMNOPQRSTUVW', true],
    ['ABCDEFGHIJKL-LMNOPQRSTUVW', false],
    ['12345', false],
    [' A-1-2', false],
    ['A-1-2 ', false],
    ['A-1_2', false],
    ['_A-1-2', false],
  ])('%j: %s', (text, expected) => {
    expect(isPlainSerial(text)).toBe(expected);
  });
});

describe('command cards at their bounds', () => {
  it.each([
    ['SC:count:0:stows', { name: 'count', count: 0, noun: 'stows' }],
    ['SC:count:999:bands', { name: 'count', count: 999, noun: 'bands' }],
    ['SC:measured:0', { name: 'measured', value: 0, unit: null }],
    ['SC:measured:0.5:mm', { name: 'measured', value: 0.5, unit: 'mm' }],
    ['SC:measured:9999.999999:ft', { name: 'measured', value: 9999.999999, unit: 'ft' }],
    ['SC:finding:1', { name: 'finding', number: 1 }],
    ['SC:goToStage:999', { name: 'goToStage', stage: 999 }],
  ])('%s is one', (payload, command) => {
    expect(parseCardPayload(payload)).toEqual({ ok: true, value: command });
  });

  it.each([
    'SC:count:5:stows:5',
    'SC:count:5:',
    'SC:count:x5:stows',
    'SC:count:5x:stows',
    'SC:measured:10000',
    'SC:measured:1.1234567',
    'SC:measured:01',
    'SC:measured:x1',
    'SC:measured:1x',
    'SC:measured:1.',
    'SC:measured:.5',
    'SC:measured:1.x',
    'SC:measured:1,5',
    'SC:measured:1:',
    'SC:finding',
    'SC:finding:x1',
    'SC:finding:1x',
    'SC:finding:1000',
    'SC:goToStage:0',
    'SC:goToStage:1:1',
    'SC',
    'sc:affirm',
    'XX:affirm',
    ' SC:affirm',
  ])('%s is none', (payload) => {
    expect(parseCardPayload(payload)).toMatchObject({ ok: false, reason: 'card-unknown' });
  });

  it('a command takes no argument that it has not', () => {
    for (const name of COMMAND_NAMES) {
      if (['count', 'measured', 'finding', 'goToStage', 'reopenStage'].includes(name)) continue;
      expect(parseCardPayload(`SC:${name}`)).toEqual({ ok: true, value: { name } });
      expect(parseCardPayload(`SC:${name}:`).ok).toBe(false);
      expect(parseCardPayload(`SC:${name}:1`).ok).toBe(false);
    }
  });

  it('and a card that could not be read is never printed', () => {
    expect(() => makeCardPayload({ name: 'finding', number: 1_000 })).toThrow(
      'a card can carry the numbers of SC:finding:1000',
    );
  });
});

describe('marks that could not be read are never made', () => {
  it.each<[string, () => unknown, string]>([
    ['no envelope', () => makeEnvelope([]), 'at least one format envelope'],
    ['an envelope of nothing', () => makeEnvelope([{ format: '06', fields: [] }]), 'neither empty nor'],
    ['an empty field', () => makeEnvelope([{ format: '06', fields: ['S1', ''] }]), 'neither empty nor'],
    ['a field with an end', () => makeEnvelope([{ format: '06', fields: ['S\u0004'] }]), 'neither empty nor'],
    ['a field with a record', () => makeEnvelope([{ format: '06', fields: ['S\u001e'] }]), 'neither empty nor'],
    ['an element that nobody knows', () => makeElementString([{ ai: '89', value: '1' }]), '(89)1 is a valid element'],
    ['more than an identifier', () => makeElementString([{ ai: '211', value: 'A' }]), '(211)A is a valid element'],
    ['an element without a value', () => makeElementString([{ ai: '21', value: '' }]), '(21) is a valid element'],
  ])('%s', (_, make, belief) => {
    expect(make).toThrow(belief);
  });
});
