/** What wrong PINs cost. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../src/domain/fact';
import { PackDriver } from '../pack-driver';
import { atHold, badge, reasons } from './pin-pack';

describe('wrong PINs', () => {
  it('cost a wait that grows, also for the right PIN, and a restart shortens nothing', () => {
    const pack = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(pack, 'ines', 'wrong');
    badge(pack, 'ines', 'fits');
    expect(pack.view.notice?.text).toContain('Wait 29 seconds');
    pack.restart();
    badge(pack, 'ines', 'fits');
    expect(reasons(pack).slice(-2)).toEqual(['pin-wait', 'pin-wait']);
    pack.after(30);
    badge(pack, 'ines', 'wrong');
    pack.after(30);
    badge(pack, 'ines', 'fits');
    expect(pack.view.notice?.text).toContain('Wait 29 seconds');
    pack.after(30);
    badge(pack, 'ines', 'fits');
    expect(pack.phase).toBe('inspecting');
  });

  it('in other packs count too: a new pack is no way to try again at once', () => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(first, 'ines', 'wrong');
    // Ten seconds before the wait ends another pack is at its hold.
    const second = atHold('eachHold', [], { elsewhere: first.facts, pack: 'pack-2' });
    second.ms = first.ms + 20_000;
    badge(second, 'ines', 'fits');
    expect(reasons(second)).toEqual(['pin-wait']);
    badge(second, 'iris', 'fits');
    expect(second.phase).toBe('inspecting');
    second.command({ name: 'standBy' });
    second.command({ name: 'resume' });
    second.after(30);
    badge(second, 'ines', 'wrong');
    badge(second, 'ines', 'fits');
    // The fourth in a row, over both packs.
    expect(second.view.notice?.text).toMatch(/Wait 5\d seconds/);
  });

  it('before a right one in another pack are forgotten', () => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 2; tries += 1) badge(first, 'ines', 'wrong');
    badge(first, 'ines', 'fits');
    const second = atHold('eachHold', [], { elsewhere: first.facts, pack: 'pack-2' });
    badge(second, 'ines', 'wrong');
    badge(second, 'ines', 'fits');
    expect(second.phase).toBe('inspecting');
  });

  it.each(['signed', 'tagCleared'] as const)('before a right one that was given for %s are forgotten', (kind) => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(first, 'ines', 'wrong');
    const last = first.facts.at(-1);
    if (last === undefined) throw new Error('wrong PINs are facts');
    const right = { ...last, seq: last.seq + 1, by: 'ines', body: { kind, pin: true } } as unknown as Fact;
    const second = atHold('eachHold', [], { elsewhere: [...first.facts, right], pack: 'pack-2', at: first.now });
    badge(second, 'ines', 'wrong');
    badge(second, 'ines', 'fits');
    expect(second.phase).toBe('inspecting');
  });

  it('cost the whole wait when the clock is set back', () => {
    const pack = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(pack, 'ines', 'wrong');
    pack.after(-3600);
    badge(pack, 'ines', 'fits');
    expect(pack.phase).toBe('waitingForInspector');
    // The scan comes from before the step, so it is not even looked at; where the loft is told of the jump, it waits.
    expect(reasons(pack).at(-1)).toBe('stale');
    const next = atHold('eachHold', [], { elsewhere: pack.facts, pack: 'pack-2', at: '2026-11-25T08:00:00.000Z' });
    badge(next, 'ines', 'fits');
    expect(next.view.notice?.text).toBe('Too many wrong PINs. Wait 30 seconds, then scan the badge again.');
  });

  it('still cost the longest wait when there are more than the table of waits has, over several packs', () => {
    const wrong = (pack: PackDriver, tries: number): void => {
      for (let tried = 0; tried < tries; tried += 1) {
        pack.after(1000);
        badge(pack, 'ines', 'wrong');
      }
    };
    const first = atHold('eachHold');
    wrong(first, 9);
    const second = atHold('eachHold', [], { elsewhere: first.facts, pack: 'pack-2', at: first.now });
    wrong(second, 3);
    second.after(890);
    badge(second, 'ines', 'fits');
    expect(second.view.notice?.text).toBe('Too many wrong PINs. Wait 9 seconds, then scan the badge again.');
    second.after(10);
    badge(second, 'ines', 'fits');
    expect(second.phase).toBe('inspecting');
  });

  it('are forgotten only by a PIN, not by being let in without one', () => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(first, 'ines', 'wrong');
    const seq = (first.facts.at(-1)?.seq ?? 0) + 1;
    const present = { kind: 'inspectorPresent', hold: 'layout', inspector: 'ines', sighting: 'x' } as const;
    const lapsed = { kind: 'verdictLapsed', hold: 'layout', inspector: 'ines' } as const;
    const more = [present, lapsed].map((body, index) => ({
      pack: 'p',
      at: first.now,
      by: null,
      body,
      seq: seq + index,
    }));
    const second = atHold('eachHold', [], { elsewhere: [...first.facts, ...more], pack: 'pack-2' });
    second.ms = first.ms + 10_000;
    badge(second, 'ines', 'fits');
    expect(reasons(second)).toEqual(['pin-wait']);
  });

  it('are counted in the order in which they happened, whichever pack they are of', () => {
    const first = atHold('eachHold');
    for (let tries = 0; tries < 2; tries += 1) badge(first, 'ines', 'wrong');
    // Another pack of this kiosk in between, in which the right one was given.
    const between = atHold('eachHold', [], { elsewhere: first.facts, pack: 'pack-2', at: first.now });
    badge(between, 'ines', 'fits');
    const { loft } = first.snapshot.context;
    const again = new PackDriver({ loft, facts: first.facts, elsewhere: between.facts, at: between.now });
    badge(again, 'ines', 'wrong');
    badge(again, 'ines', 'fits');
    expect(again.phase).toBe('inspecting');
  });

  it('are counted for each person, and forgotten after the right one', () => {
    const pack = atHold('eachHold');
    for (let tries = 0; tries < 3; tries += 1) badge(pack, 'ines', 'wrong');
    badge(pack, 'iris', 'fits');
    expect(pack.phase).toBe('inspecting');
    pack.after(60);
    badge(pack, 'ines', 'fits');
    badge(pack, 'ines', 'wrong');
    badge(pack, 'ines', 'fits');
    expect(pack.phase).toBe('inspecting');
  });

  it('ten in a row end it for this pack, whatever comes after', () => {
    const pack = atHold('eachHold');
    for (let tries = 0; tries < 10; tries += 1) {
      pack.after(1000);
      badge(pack, 'ines', 'wrong');
    }
    pack.after(100_000);
    badge(pack, 'ines', 'fits');
    expect(reasons(pack).at(-1)).toBe('pin-locked');
    expect(pack.view.notice?.text).toBe('Too many wrong PINs for Ines. Somebody else must do this. Tell the lead.');
    badge(pack, 'iris', 'fits');
    expect(pack.phase).toBe('inspecting');
  });
});
