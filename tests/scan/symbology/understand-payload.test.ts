/** Payload to meaning: every kind that is accepted, and every refusal with its reason. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COMMAND_NAMES } from '../../../src/domain/command';
import type { Command } from '../../../src/domain/command';
import { COUNT_NOUNS } from '../../../src/domain/procedure';
import { UNITS } from '../../../src/domain/quantity';
import { makeBadgePayload, parseBadgePayload } from '../../../src/scan/symbology/badge';
import { makeCardPayload, parseCardPayload } from '../../../src/scan/symbology/card';
import { understandPayload } from '../../../src/scan/symbology/understand-payload';
import { SYMBOLOGIES } from '../../../src/scan/sighting';

const CROCKFORD = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const badgeId = fc.string({ unit: fc.constantFrom(...CROCKFORD), minLength: 16, maxLength: 16 });
const symbology = fc.constantFrom(...SYMBOLOGIES);

function meaningOf(payload: string) {
  return understandPayload({ payload, symbology: 'unknown' });
}

function reasonOf(payload: string): string {
  const meaning = meaningOf(payload);
  return meaning.kind === 'refused' ? meaning.reason : `accepted as ${meaning.kind}`;
}

const commands: fc.Arbitrary<Command> = fc.oneof(
  fc.constantFrom(...COMMAND_NAMES).chain((name): fc.Arbitrary<Command> => {
    switch (name) {
      case 'count':
        return fc.record({ name: fc.constant(name), count: fc.nat(999), noun: fc.constantFrom(...COUNT_NOUNS) });
      case 'measured':
        return fc.record({
          name: fc.constant(name),
          value: fc.nat(9999 * 16).map((sixteenths) => sixteenths / 16),
          unit: fc.constantFrom(...UNITS, null),
        });
      case 'finding':
        return fc.record({ name: fc.constant(name), number: fc.integer({ min: 1, max: 999 }) });
      case 'goToStage':
      case 'reopenStage':
        return fc.record({ name: fc.constant(name), stage: fc.integer({ min: 1, max: 999 }) });
      default:
        return fc.constant({ name });
    }
  }),
);

describe('badges', () => {
  it('come back as they were made', () => {
    fc.assert(
      fc.property(badgeId, symbology, (id, kind) => {
        const payload = makeBadgePayload(id);
        expect(payload).toHaveLength(19);
        expect(parseBadgePayload(payload)).toEqual({ ok: true, value: id });
        expect(understandPayload({ payload, symbology: kind })).toEqual({ kind: 'badge', badge: id });
      }),
    );
  });

  it('are refused with any one character changed, to anything', () => {
    fc.assert(
      fc.property(badgeId, fc.nat(18), fc.string({ unit: 'binary', minLength: 1, maxLength: 1 }), (id, at, other) => {
        const payload = makeBadgePayload(id);
        fc.pre(payload.charAt(at) !== other);
        expect(meaningOf(payload.slice(0, at) + other + payload.slice(at + 1)).kind).toBe('refused');
      }),
      { numRuns: 2000 },
    );
  });

  it('are refused with every printable character in every place', () => {
    const payload = makeBadgePayload('7G3KQX0V9TBM52HD');
    for (let at = 0; at < payload.length; at += 1) {
      for (let code = 32; code < 127; code += 1) {
        const other = String.fromCharCode(code);
        if (other === payload.charAt(at)) continue;
        expect(reasonOf(payload.slice(0, at) + other + payload.slice(at + 1))).not.toContain('accepted');
      }
    }
  });

  it('are refused with neighbours swapped, a character lost or one too many', () => {
    const payload = makeBadgePayload('7G3KQX0V9TBM52HD');
    for (let at = 0; at < payload.length; at += 1) {
      expect(meaningOf(payload.slice(0, at) + payload.slice(at + 1)).kind).toBe('refused');
      expect(meaningOf(`${payload.slice(0, at)}-${payload.slice(at)}`).kind).toBe('refused');
      if (at === payload.length - 1) continue;
      const swapped = payload.slice(0, at) + payload.charAt(at + 1) + payload.charAt(at) + payload.slice(at + 2);
      expect(meaningOf(swapped).kind).toBe('refused');
    }
  });

  it.each([
    ['SB7G3KQX0V9TBM52HD0', 'badge-check', "The badge's check does not fit. Scan it again."],
    ['SB7G3KQX0V9TBM52HI0', 'badge-damaged', 'This badge cannot be read in full. Scan it again.'],
    ['SB7G3KQX0V9TBM', 'badge-damaged', 'This badge cannot be read in full. Scan it again.'],
    ['SB7G3K-X0V9TBM52HD0', 'badge-damaged', 'This badge cannot be read in full. Scan it again.'],
  ])('%s is refused: %s', (payload, reason, detail) => {
    expect(meaningOf(payload)).toEqual({ kind: 'refused', reason, detail });
  });

  it('are never made of an identifier that is none', () => {
    expect(() => makeBadgePayload('short')).toThrow('Broken assumption');
    expect(() => makeBadgePayload('7G3KQX0V9TBM52HI')).toThrow('Broken assumption');
  });
});

describe('command cards', () => {
  it('come back as they were made, every command', () => {
    fc.assert(
      fc.property(commands, (command) => {
        const payload = makeCardPayload(command);
        expect(parseCardPayload(payload)).toEqual({ ok: true, value: command });
        expect(meaningOf(payload)).toEqual({ kind: 'command', command });
      }),
    );
  });

  it.each([
    ['SC:affirm', { name: 'affirm' }],
    ['SC:count:5:stows', { name: 'count', count: 5, noun: 'stows' }],
    ['SC:measured:42', { name: 'measured', value: 42, unit: null }],
    ['SC:measured:1.25:in', { name: 'measured', value: 1.25, unit: 'in' }],
    ['SC:finding:2', { name: 'finding', number: 2 }],
    ['SC:goToStage:14', { name: 'goToStage', stage: 14 }],
    ['SC:reopenStage:4', { name: 'reopenStage', stage: 4 }],
  ])('%s', (payload, command) => {
    expect(meaningOf(payload)).toEqual({ kind: 'command', command });
  });

  it.each([
    'SC:',
    'SC:nonsense',
    'SC:Affirm',
    'SC:affirm:1',
    'SC:affirm ',
    'SC:count',
    'SC:count:5',
    'SC:count:5:elephants',
    'SC:count:05:stows',
    'SC:count:1000:stows',
    'SC:count:-1:stows',
    'SC:measured',
    'SC:measured:',
    'SC:measured:1e3',
    'SC:measured:1.50',
    'SC:measured:1.25:yd',
    'SC:measured:1.25:in:in',
    'SC:finding:0',
    'SC:finding:1:2',
    'SC:goToStage:',
    'SC:goToStage:2.5',
    'SC:reopenStage',
    'SC:reopenStage:0',
    'SC:toString',
    'SC:__proto__',
  ])('%s is no card', (payload) => {
    expect(reasonOf(payload)).toBe('card-unknown');
  });

  it('cannot be made with numbers that a card does not carry', () => {
    expect(() => makeCardPayload({ name: 'finding', number: 0 })).toThrow('Broken assumption');
    expect(() => makeCardPayload({ name: 'measured', value: Number.NaN, unit: 'in' })).toThrow('Broken assumption');
    expect(() => makeCardPayload({ name: 'count', count: 2.5, noun: 'stows' })).toThrow('Broken assumption');
  });
});

describe('plain serials', () => {
  it.each(['QC-204-118', 'A-1-2', 'BAG-0001', ']C0QC-204-118', ']d1QC-204-118', ']A0QC-204-118', ']Q1QC-204-118'])(
    '%s is a component',
    (payload) => {
      expect(meaningOf(payload)).toEqual({ kind: 'component', serial: payload.replace(/^\]../, '') });
    },
  );

  it.each([
    ['', 'empty'],
    ['x'.repeat(513), 'too-long'],
    ['QC-204\u0000118', 'control-characters'],
    ['QC-204-118\r', 'control-characters'],
    ['QC-204-118\u007f', 'control-characters'],
    ['qc-204-118', 'small-letters'],
    ['QC204118', 'unknown'],
    ['A-1', 'unknown'],
    ['-QC-204', 'unknown'],
    ['QC-204-', 'unknown'],
    ['QC--204', 'unknown'],
    ['QC-204 118', 'unknown'],
    ['QC-204-118-204-118-204-118', 'unknown'],
    ['QC-1234567890123', 'unknown'],
    ['QC-204-118 ', 'unknown'],
    ['ÅC-204-118', 'unknown'],
    ['https://example.org/QC-204', 'unknown'],
    [']X0QC-204-118', 'unknown'],
    [']C0', 'unknown'],
    [']', 'unknown'],
  ])('%j is refused: %s', (payload, reason) => {
    expect(reasonOf(payload)).toBe(reason);
  });

  it('says in words what to do', () => {
    for (const payload of ['', 'x'.repeat(600), 'qc-1-2', 'zzz', '[)>', ']C1', 'SC:x', 'SBSBSBSBSBSBS']) {
      const meaning = meaningOf(payload);
      expect(meaning.kind).toBe('refused');
      if (meaning.kind === 'refused') expect(meaning.detail).toMatch(/^[A-Z].*\.$/);
    }
  });
});

describe('any payload at all', () => {
  it('never throws, and is accepted only where it reads back as the same thing', () => {
    const pieces = fc.constantFrom(
      'SB',
      'SC:',
      ']C1',
      ']d2',
      '[)>',
      '\u001e',
      '\u001d',
      '\u0004',
      '06',
      '12',
      '01',
      '21',
      '-',
      'S',
      'A',
      '0',
    );
    const payload = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 600 }),
      fc.string({ unit: 'grapheme-ascii', maxLength: 40 }),
      fc.array(pieces, { maxLength: 24 }).map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(payload, symbology, (text, kind) => {
        const meaning = understandPayload({ payload: text, symbology: kind });
        if (meaning.kind === 'badge') expect(text).toContain(makeBadgePayload(meaning.badge));
        if (meaning.kind === 'command') expect(text).toContain(makeCardPayload(meaning.command));
        if (meaning.kind === 'component') expect(text).toContain(meaning.serial);
      }),
      { numRuns: 5000 },
    );
  });
});
