/**
 * Procedure files that must be turned away, one fault each. The files lie in `broken`: the first line names the fault,
 * the mark `# <- here` stands on each line that must be named.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holdsOf } from '../../src/domain/procedure';
import { lintProcedure, parseProcedure } from '../../src/loft/parse-procedure';

const here = import.meta.dirname;
const sound = readFileSync(join(here, 'sound.yaml'), 'utf8');
const broken = readdirSync(join(here, 'broken')).map((name) => {
  const text = readFileSync(join(here, 'broken', name), 'utf8');
  const lines = text.split('\n');
  return {
    name,
    text,
    faults: (/^# Broken on purpose: ([a-z, -]+)\./.exec(text)?.[1] ?? '?').split(', '),
    marked: lines.flatMap((line, index) => (line.includes('# <- here') ? [index + 1] : [])),
  };
});

describe('a sound procedure', () => {
  it('is read whole', () => {
    const parsed = parseProcedure('procedures/sound.yaml', sound);
    expect(parsed).toMatchObject({ ok: true });
    if (!parsed.ok) return;
    const { stages } = parsed.value;
    expect(stages.map((stage) => stage.number)).toEqual(stages.map((_, index) => index + 1));
    expect(stages[5]).toMatchObject({ kind: 'measure', target: { from: 'remainder', stowStage: 'line-stows' } });
    expect(stages[6]).toMatchObject({
      kind: 'stow',
      plan: { lineFrom: 'line-left', bight: { value: 2.5, unit: 'in' } },
    });
    expect(stages[8]).toMatchObject({ target: { from: 'nominal', nominal: { value: 8, unit: 'in' } } });
    expect(stages[0]).toMatchObject({ caution: null, hold: { inspectorClass: 'in-process' } });
    expect(lintProcedure('sound.yaml', sound)).toEqual([]);
  });

  it('may have eleven holds (common practice, no source: eleven in one procedure)', () => {
    const stage = (n: number): string =>
      `  - { id: s${String(n)}, kind: confirm, title: S, steps: [Do it.], hold: { id: h${String(n)}, title: H, ` +
      `inspectorClass: closing, inspect: [It.], findings: [{ id: f, text: Wrong, backTo: s1 }] } }`;
    const eleven = Array.from({ length: 11 }, (_, index) => stage(index + 1)).join('\n');
    const head = sound.slice(0, sound.indexOf('temporaryItems:')).replace('id: sound', 'id: eleven');
    const last = sound
      .slice(sound.indexOf('finalHold:'), sound.indexOf('stages:'))
      .replace('backTo: cells', 'backTo: s1');
    const end = sound.slice(sound.indexOf('  - id: close'));
    const parsed = parseProcedure('eleven.yaml', `${head}temporaryItems: []\n${last}stages:\n${eleven}\n${end}`);
    expect(parsed.ok && holdsOf(parsed.value).length).toBe(11);
  });
});

describe('a broken procedure is refused with its fault, file, line and a reason', () => {
  it.each(broken)('$name: $faults', ({ name, text, faults, marked }) => {
    const parsed = parseProcedure(`procedures/${name}`, text);
    expect(parsed.ok).toBe(false);
    if (parsed.ok) return;
    expect([...new Set(parsed.refused.map((refused) => refused.fault))]).toEqual(faults);
    expect([...new Set(parsed.refused.map((refused) => refused.line))]).toEqual(marked);
    for (const refused of parsed.refused) {
      expect(refused.file).toBe(`procedures/${name}`);
      expect(refused.reason).toMatch(/^.{15,}\.$/);
      expect(refused.reason).not.toMatch(/YAML\.|zod|undefined|\[object/);
    }
    expect(lintProcedure(`procedures/${name}`, text)).toEqual(parsed.refused);
  });

  it('has an example for each fault that a procedure can have', () => {
    expect([...new Set(broken.flatMap((one) => one.faults))].sort()).toEqual([
      'bad-date',
      'bad-id',
      'bad-plan',
      'bad-quantity',
      'bad-text',
      'caution-missing',
      'closed-in',
      'duplicate-id',
      'either-or',
      'id-not-file-name',
      'later-stage',
      'line-disagrees',
      'missing-field',
      'never-measured',
      'never-placed',
      'never-removed',
      'no-closing-stage',
      'not-yaml',
      'number-told',
      'placed-twice',
      'removed-before-placed',
      'reserved-name',
      'too-big',
      'too-few',
      'too-small',
      'unknown-field',
      'unknown-reference',
      'unknown-unit',
      'unknown-word',
      'wrong-class',
      'wrong-kinds',
      'wrong-type',
    ]);
  });
});

describe('sizes', () => {
  const faultsOf = (text: string): readonly string[] => lintProcedure('sound.yaml', text).map((one) => one.fault);

  it('more than a megabyte is not even parsed', () => {
    expect(faultsOf(`${sound}# ${'x'.repeat(1_000_000)}\n`)).toEqual(['too-large']);
    expect(faultsOf(`${sound}# ${'x'.repeat(900_000)}\n`)).toEqual([]);
  });

  it('ninety-nine stages are enough, and no more can be named', () => {
    const filler = (count: number): string =>
      Array.from(
        { length: count },
        (_, n) => `  - { id: more-${String(n)}, kind: confirm, title: More, steps: [More.] }\n`,
      ).join('');
    expect(faultsOf(sound + filler(87))).toEqual([]);
    expect(faultsOf(sound + filler(88))).toEqual(['too-many']);
  });

  it.each([
    ['title: Cells', `title: ${'C'.repeat(81)}`, 'bad-text'],
    ['Count the cells.', 'C'.repeat(241), 'bad-text'],
    ['id: fold', `id: ${'f'.repeat(49)}`, 'bad-id'],
    ['expected: 7', 'expected: 201', 'too-big'],
    ['steps: [Count the cells.]', `steps: [${'Count, '.repeat(13)}]`, 'too-many'],
  ])('%s made too long is refused', (from, to, fault) => {
    expect(faultsOf(sound.replace(from, to))).toEqual([fault]);
  });

  it('a text of brackets does not bring the kiosk down', () => {
    expect(faultsOf('['.repeat(20_000))).toContain('not-yaml');
  });

  it('many findings are cut off at fifty', () => {
    expect(faultsOf(sound + '  - {}\n'.repeat(80))).toHaveLength(50);
  });
});

describe('whatever is in the file', () => {
  it('the answer is a procedure or a refusal with a line, never a throw', () => {
    const lines = sound.split('\n');
    const mutation = fc.record({
      at: fc.nat({ max: lines.length - 1 }),
      to: fc.oneof(fc.string(), fc.constantFrom('', '- ', 'a: b', '  id: null', '__proto__: 1', '? {}', '*x', '\t')),
    });
    fc.assert(
      fc.property(fc.array(mutation, { minLength: 1, maxLength: 3 }), (mutations) => {
        const changed = [...lines];
        for (const { at, to } of mutations) changed[at] = to;
        const parsed = parseProcedure('sound.yaml', changed.join('\n'));
        if (parsed.ok) return;
        expect(parsed.refused.length).toBeGreaterThan(0);
        for (const { line } of parsed.refused) expect(line).toBeGreaterThanOrEqual(1);
      }),
      { numRuns: 200 },
    );
  });
});
