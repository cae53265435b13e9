/** The invented loft: it loads whole, its figures are those that its README states, and its bad things are bad. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Assembly } from '../../src/domain/component/component';
import { checkComponent } from '../../src/domain/component/component';
import type { Loft } from '../../src/domain/loft';
import { procedureFor, repackRuleFor } from '../../src/domain/loft';
import { mayInspect, mayPack } from '../../src/domain/person';
import type { Procedure } from '../../src/domain/procedure';
import { allHoldsOf, itemsExpectedBefore, STAGE_KINDS } from '../../src/domain/procedure';
import { checkPlan } from '../../src/domain/stow/plan-check';
import { remainderBand } from '../../src/domain/stow/stow-plan';
import { loadLoft } from '../../src/loft/load-loft';

const folder = join(import.meta.dirname, '../../demo-data');
const read = (path: string) => ({ path, text: readFileSync(join(folder, path), 'utf8') });
const procedureFiles = readdirSync(join(folder, 'procedures')).map((name) => `procedures/${name}`);
const files = ['loft.yaml', 'people.yaml', 'assemblies.yaml', ...procedureFiles].map(read);
const loaded = loadLoft(files);
const loft = loaded.loft as Loft;
const readme = read('README.md').text;

const byId = <T extends { readonly id: string }>(list: readonly T[], id: string): T => {
  const found = list.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no ${id}`);
  return found;
};
const longOne = (): Procedure => byId(loft.procedures, 'wendle-r7-static-line');
const cargo = (): Procedure => byId(loft.procedures, 'corrow-c3-cargo');

/** The day of the design and a day ten years on: nothing may run out in between. */
const DAYS = ['2026-11-25', '2036-11-25'];

describe('the loft', () => {
  it('loads without a finding', () => {
    expect(loaded.refused).toEqual([]);
    expect(loaded.loft).not.toBeNull();
    expect(loft.settings.name).toBe('Quillhaven Rescue Loft');
  });

  it('has ten people, six assemblies and two procedures', () => {
    expect(loft.people).toHaveLength(10);
    expect(loft.assemblies).toHaveLength(6);
    expect(loft.procedures).toHaveLength(2);
  });

  it.each(files.map((file) => file.path))(
    '%s begins by saying that it is invented and must not be packed by',
    (path) => {
      const [first, second] = read(path).text.split('\n');
      expect(first).toContain('INVENTED FOR DEMONSTRATION ONLY');
      expect(second).toContain('MUST NOT BE USED TO PACK A PARACHUTE');
    },
  );
});

describe('procedures', () => {
  it('the ram-air main has 25 stages of all kinds, 8 holds, 4 tool lines and 3 temporary items', () => {
    const procedure = longOne();
    expect(procedure.stages).toHaveLength(25);
    expect(allHoldsOf(procedure)).toHaveLength(8);
    expect(new Set(procedure.stages.map((stage) => stage.kind))).toEqual(new Set(STAGE_KINDS));
    expect(procedure.tools).toHaveLength(4);
    expect(procedure.temporaryItems).toHaveLength(3);
    expect(readme).toContain('25 stages, 8 holds');
  });

  it('the cargo canopy has 13 stages and 4 holds', () => {
    expect(cargo().stages).toHaveLength(13);
    expect(allHoldsOf(cargo())).toHaveLength(4);
    expect(readme).toContain('13 stages, 4 holds');
  });

  it('their stow plans leave what they state, and all that goes in comes out', () => {
    for (const procedure of loft.procedures) {
      const plans = procedure.stages.flatMap((stage) => (stage.kind === 'stow' ? [stage.plan] : []));
      expect(plans.length).toBeGreaterThan(0);
      for (const plan of plans) {
        expect(checkPlan(plan).ok).toBe(true);
        expect(remainderBand(plan, plan.line).expected).toEqual(plan.remainder);
      }
      expect(itemsExpectedBefore(procedure, procedure.stages.length + 1)).toEqual([]);
    }
  });

  it('are short and plain enough to be listened to: at most 25 words a stage, nothing but words', () => {
    for (const procedure of loft.procedures) {
      for (const { id, title, steps, caution, hold } of procedure.stages) {
        const spoken = [title, ...steps, ...(caution === null ? [] : [caution])].join(' ');
        expect(spoken.split(/\s+/).length, id).toBeLessThanOrEqual(25);
        const held = hold === null ? [] : [hold.title, ...hold.inspect, ...hold.findings.map((one) => one.text)];
        for (const text of [spoken, ...held]) expect(text, id).toMatch(/^[A-Za-z ,.-]+$/);
      }
    }
  });
});

describe('assemblies', () => {
  const failures = (assembly: Assembly, on: string): readonly string[] => {
    const rule = repackRuleFor(loft, assembly);
    if (rule === null) throw new Error('no rule');
    return assembly.components
      .flatMap((component) => checkComponent(component, rule, on))
      .filter((line) => !line.passed)
      .map((line) => line.label);
  };
  /** Kinds whose model the procedure is not written for. */
  const mismatches = (assembly: Assembly): readonly string[] => {
    const procedure = procedureFor(loft, assembly);
    return assembly.components
      .filter(
        ({ kind, model }) => !procedure?.components.some((one) => one.kind === kind && one.models.includes(model)),
      )
      .map(({ kind }) => kind);
  };

  it.each<[string, readonly string[], readonly string[], string | null]>([
    ['wendle-main-4', [], [], null],
    ['corrow-cargo-9', [], [], null],
    ['wendle-main-5', [], [], null],
    ['wendle-main-6', ['Container: life from manufacture'], [], null],
    ['wendle-main-7', [], ['container'], null],
    ['wendle-main-8', [], [], 'Table 2'],
  ])('%s fails %j, mismatched %j, open at %s: today and ten years on', (...[id, failing, mismatched, openAt]) => {
    const assembly = byId(loft.assemblies, id);
    for (const day of DAYS) expect(failures(assembly, day)).toEqual(failing);
    expect(mismatches(assembly)).toEqual(mismatched);
    expect(assembly.openAt).toBe(openAt);
    expect(procedureFor(loft, assembly)).not.toBeNull();
  });

  it('their serials cannot be confused by ear: any two of an assembly differ in six places or more', () => {
    for (const assembly of loft.assemblies) {
      const serials = assembly.components.map((component) => component.serial);
      for (const [n, a] of serials.entries()) {
        for (const b of serials.slice(n + 1)) {
          const differing = [...a].filter((character, index) => character !== b[index]).length;
          expect(differing, `${a} and ${b}`).toBeGreaterThanOrEqual(6);
        }
      }
    }
  });

  it('are all in the README, serial by serial', () => {
    for (const assembly of loft.assemblies) {
      expect(readme).toContain(assembly.name);
      for (const { serial } of assembly.components) expect(readme).toContain(serial);
    }
  });
});

describe('people', () => {
  const reason = (result: { readonly ok: boolean; readonly reason?: string }): string => result.reason ?? 'may';
  const on = (day: string) => ({ model: 'Wendle R7', holdClass: 'in-process', packers: ['nobody'], on: day }) as const;

  it.each([
    ['hazel-orrin', 'may', 'not-an-inspector'],
    ['tomas-veller', 'not-a-rigger', 'may'],
    ['ines-calloway', 'may', 'may'],
    ['rurik-dane', 'not-a-rigger', 'not-for-class'],
    ['bram-sedley', 'expired', 'expired'],
    ['odile-marsh', 'revoked', 'revoked'],
    ['kester-lund', 'not-a-rigger', 'not-for-model'],
    ['jun-amari', 'not-a-rigger', 'not-an-inspector'],
    ['effie-brandt', 'not-a-rigger', 'not-an-inspector'],
  ])('%s: packing %s, inspecting %s, today and nearly ten years on', (id, packing, inspecting) => {
    const person = byId(loft.people, id);
    for (const day of DAYS) {
      expect(reason(mayPack(person, 'Wendle R7', day))).toBe(packing);
      expect(reason(mayInspect(person, on(day)))).toBe(inspecting);
    }
  });

  it('one is not yet valid for years to come', () => {
    const person = byId(loft.people, 'pia-novak');
    expect(reason(mayInspect(person, on('2026-11-25')))).toBe('not-yet-valid');
    expect(reason(mayInspect(person, on('2035-12-31')))).toBe('not-yet-valid');
  });

  it('one has two badges, every role is there, and all are in the README', () => {
    expect(loft.people.filter((person) => person.badges.length === 2).map((person) => person.id)).toEqual([
      'ines-calloway',
    ]);
    expect(new Set(loft.people.flatMap((person) => person.roles)).size).toBe(5);
    for (const person of loft.people) expect(readme).toContain(person.name);
  });

  it('every hold of the long procedure has an inspector who is not its packer', () => {
    for (const { hold } of allHoldsOf(longOne())) {
      const able = loft.people.filter(
        (person) =>
          mayInspect(person, {
            model: 'Wendle R7',
            holdClass: hold.inspectorClass,
            packers: ['hazel-orrin'],
            on: '2026-11-25',
          }).ok,
      );
      expect(able.length, hold.id).toBeGreaterThanOrEqual(2);
    }
  });
});
