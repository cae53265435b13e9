/** What an invented procedure is: said once, shown always, kept on the record; and none of it for a loft's own. */
import { initialTransition, transition } from 'xstate';
import { describe, expect, it } from 'vitest';
import type { Procedure } from '../../../src/domain/procedure';
import { rehearsalMachine, rehearsalViewOf } from '../../../src/packing/rehearsal/rehearsal';
import { reach, step } from '../autopilot';
import { LOFT, SPRAT } from '../fixture';
import { PackDriver } from '../pack-driver';

const SAYS = /must not be used to pack a parachute/;
const INVENTED: Procedure = { ...SPRAT, demonstration: true };
const OWN: readonly (readonly [string, Procedure])[] = [
  ['whose file is silent', SPRAT],
  ['whose file says false', { ...SPRAT, demonstration: false }],
];

interface Heard {
  readonly said: readonly string[];
  /** The line on each screen after the assembly was agreed. */
  readonly lines: readonly (string | null | undefined)[];
  readonly screens: ReadonlySet<string>;
  readonly notice: string;
}

/** A whole pack from the first scan to the signature. */
function wholePack(procedure: Procedure): Heard {
  const procedures = LOFT.procedures.map((one) => (one.id === procedure.id ? procedure : one));
  const driver = new PackDriver({ loft: { ...LOFT, procedures } });
  const said: string[] = [];
  const lines: (string | null | undefined)[] = [];
  const screens = new Set<string>();
  const note = (): void => {
    const { view } = driver;
    if (said.at(-1) !== view.prompt.say) said.push(view.prompt.say);
    if (view.assembly === null) return;
    lines.push(view.demonstration);
    screens.add(view.detail.screen);
  };
  note();
  while (step(driver)) note();
  const signed = driver.facts.findLast(({ body }) => body.kind === 'signed');
  if (signed?.body.kind !== 'signed') throw new Error('the pack is not signed');
  return { said, lines, screens, notice: signed.body.record.notice };
}

function rehearsal(procedure: Procedure) {
  let [snapshot] = initialTransition(rehearsalMachine, { procedure, rate: 1 });
  const views = [rehearsalViewOf(snapshot)];
  for (const name of ['sayAgain', ...procedure.stages.slice(1).map(() => 'next' as const)] as const) {
    [snapshot] = transition(rehearsalMachine, snapshot, { type: 'COMMAND', command: { name } });
    views.push(rehearsalViewOf(snapshot));
  }
  return views;
}

describe('a pack by an invented procedure', () => {
  const { said, lines, screens, notice } = wholePack(INVENTED);

  it('hears once that it must not be used, when the procedure is agreed', () => {
    expect(said.filter((text) => SAYS.test(text))).toHaveLength(1);
    expect(said.find((text) => SAYS.test(text))).toContain('Procedure: Sprat main, revision C.');
  });

  it('shows it on every screen from then on', () => {
    for (const screen of ['checkIn', 'stage', 'hold', 'closeUp', 'sign']) expect(screens).toContain(screen);
    for (const line of lines) expect(line).toMatch(SAYS);
  });

  it('keeps it on the record, beside what always applies', () => {
    expect(notice).toMatch(SAYS);
    expect(notice).toMatch(/come first; the kiosk assists and does not certify\.$/);
  });
});

describe.each(OWN)('a pack by a procedure %s', (_, procedure) => {
  it('neither says, shows nor records anything of a demonstration', () => {
    const { said, lines, notice } = wholePack(procedure);
    for (const text of [...said, notice]) expect(text).not.toMatch(/demonstration|invented|must not be used/i);
    for (const line of lines) expect(line ?? null).toBeNull();
  });

  it('still says on the record who comes first', () => {
    const { notice } = wholePack(procedure);
    expect(notice).toMatch(/^Local rules and the judgement of licensed riggers and inspectors come first/);
    expect(notice).toMatch(/assists and does not certify\.$/);
  });
});

describe('a rehearsal', () => {
  it('of an invented procedure says once that it must not be used, and shows it at every stage', () => {
    const views = rehearsal(INVENTED);
    expect(views.map(({ prompt }) => SAYS.test(prompt.say))).toEqual(views.map((_, index) => index === 0));
    for (const view of views) expect(view.demonstration).toMatch(SAYS);
  });

  it.each(OWN)('of a procedure %s says and shows nothing of the kind', (_, procedure) => {
    for (const { prompt, demonstration } of rehearsal(procedure)) {
      expect(prompt.say).not.toMatch(/demonstration|must not be used/i);
      expect(demonstration).toBeNull();
    }
  });
});

it('the pack that stands by after it was agreed still shows the line', () => {
  const procedures = LOFT.procedures.map((one) => (one.id === SPRAT.id ? INVENTED : one));
  const driver = new PackDriver({ loft: { ...LOFT, procedures } });
  reach(driver, 'stage:cells');
  driver.command({ name: 'standBy' });
  expect(driver.view.detail.screen).toBe('standingBy');
  expect(driver.view.demonstration).toMatch(SAYS);
});
