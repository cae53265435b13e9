/** The kiosk as a whole, on fakes of its ports: start, pack, interruption, trouble, rehearsal. */
import { describe, expect, it } from 'vitest';
import { createFakeDisk } from '../fakes/ledger';
import { startRig, toFirstStage, stopPack } from './rig';

describe('start', () => {
  it('says what to do, and opens no ear where nothing is legal', async () => {
    const rig = await startRig();
    expect(rig.view().screen).toBe('start');
    expect(rig.mouth.said).toContain('Scan your badge.');
    expect(rig.ear.open()).toBeNull();
  });

  it.each([
    ['effie-brandt', 'a clerk'],
    ['bram-sedley', 'an expired rigger'],
    ['odile-marsh', 'a revoked rigger'],
    ['tomas-veller', 'an inspector who is no rigger'],
  ])('%s (%s) opens no pack and is told why', async (person) => {
    const rig = await startRig();
    await rig.badge(person);
    const view = rig.view();
    expect(view.screen).toBe('start');
    expect(view.screen === 'start' && view.start.notice).toBeTruthy();
    expect(rig.ledger.facts()).toEqual([]);
  });

  it('a component before the badge opens no pack', async () => {
    const rig = await startRig();
    await rig.scan('QHB-2104-017');
    const view = rig.view();
    expect(view.screen === 'start' && view.start.notice).toMatch(/badge/i);
  });

  it('two badges at once open one pack', async () => {
    const rig = await startRig();
    const first = rig.badge('hazel-orrin');
    const second = rig.badge('hazel-orrin');
    await Promise.all([first, second]);
    expect(rig.ledger.facts().filter((fact) => fact.body.kind === 'packOpened')).toHaveLength(1);
  });

  it('without storage no pack is opened, and the start screen says why', async () => {
    const rig = await startRig({ beforeStart: (ledger) => ledger.failNext('denied') });
    await rig.badge('hazel-orrin');
    const view = rig.view();
    expect(view.screen).toBe('start');
    const storage = view.screen === 'start' && view.start.checks.find(({ part }) => part === 'storage');
    expect(storage && storage.state).toBe('failed');
    expect(view.screen === 'start' && view.start.notice).toMatch(/storage/i);
  });

  it('a refused procedure file is shown with file, line and reason', async () => {
    const file = { file: 'procedures/broken.yaml', line: 7, reason: 'There are no stages.' };
    const rig = await startRig({ refusedFiles: [file] });
    const view = rig.view();
    expect(view.screen === 'start' && view.start.refusedFiles).toEqual([file]);
  });
});

describe('a pack', () => {
  it('goes from badge to the first stage by voice and scanner alone', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    expect(rig.pack().detail.screen).toBe('stage');
    expect(rig.mouth.said.some((text) => text.includes('Spread'))).toBe(true);
    expect(rig.ear.open()?.commands).toContain('stageComplete');
  });

  it('screen and voice change only after the fact is stored', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    const before = rig.pack().prompt.key;
    const said = rig.mouth.said.length;
    const letGo = rig.ledger.holdAppends();
    await rig.say({ name: 'stageComplete' });
    expect(rig.pack().prompt.key).toBe(before);
    expect(rig.mouth.said).toHaveLength(said);
    letGo();
    await rig.settle();
    expect(rig.pack().prompt.key).not.toBe(before);
  });

  it('storage full: the stage does not advance and says why; with room again it does', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    rig.ledger.failNext('full');
    await rig.say({ name: 'stageComplete' });
    expect(rig.pack().notice?.text).toMatch(/full/i);
    const detail = rig.pack().detail;
    expect(detail.screen === 'stage' && detail.number).toBe(1);
    await rig.say({ name: 'stageComplete' });
    const after = rig.pack().detail;
    expect(after.screen === 'stage' && after.number).toBe(2);
  });

  it('a second touch right after the first does not confirm the next stage too', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    await rig.touch({ name: 'stageComplete' });
    rig.kiosk.acts.command({ name: 'itemPlaced' }, 'touch');
    await rig.settle();
    const detail = rig.pack().detail;
    expect(detail.screen === 'stage' && detail.number).toBe(2);
  });

  it('comes back to the same step after the power was cut, says so, and asks nothing again', async () => {
    const disk = createFakeDisk();
    const before = await startRig({ disk });
    await toFirstStage(before);
    await before.say({ name: 'stageComplete' });
    const after = await startRig({ disk });
    expect(after.pack().detail).toEqual(before.pack().detail);
    expect(after.mouth.said[0]).toMatch(/after a break/i);
  });

  it('cannot be left before it has ended', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    rig.kiosk.acts.leave();
    expect(rig.view().screen).toBe('pack');
    rig.kiosk.acts.rehearse('corrow-c3-cargo');
    expect(rig.view().screen).toBe('pack');
  });

  it('stopped and tagged, it can be left, and another pack can begin', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    await stopPack(rig);
    expect(rig.pack().ended).toBe(true);
    rig.kiosk.acts.leave();
    await rig.badge('ines-calloway');
    expect(rig.pack().detail.screen).toBe('identify');
    await rig.scan('QHB-2104-017');
    expect(rig.pack().readBack).not.toBeNull();
  });

  it('when another page has written, nothing more is added', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    rig.ledger.failNext('headMoved');
    await rig.say({ name: 'stageComplete' });
    expect(rig.pack().notice?.text).toMatch(/another page/i);
  });
});

describe('trouble with devices', () => {
  it.each([
    [{ ear: 'denied' as const }, 'microphone', /not allowed.*touch/is],
    [{ ear: 'absent' as const }, 'microphone', /no microphone.*touch/is],
    [{ ear: 'model' as const }, 'recogniser', /model.*touch/is],
    [{ camera: 'denied' as const }, 'camera', /not allowed.*scanner still works/is],
    [{ mouth: 'engine' as const }, 'voice', /voice.*screen/is],
  ])('%o is told with what still works', async (options, part, text) => {
    const rig = await startRig(options);
    const view = rig.view();
    const line = view.screen === 'start' ? view.start.checks.find((one) => one.part === part) : undefined;
    expect(line?.state).toBe('failed');
    expect(line?.detail).toMatch(text);
    expect(rig.kiosk.statusBar.get().trouble.join(' ')).toMatch(text);
  });

  it('unplugged in the middle of a stage: said aloud and shown, and touch finishes the stage', async () => {
    const rig = await startRig();
    await toFirstStage(rig);
    rig.ear.unplug();
    await rig.settle();
    expect(rig.mouth.said.at(-1)).toMatch(/microphone was unplugged/i);
    expect(rig.kiosk.statusBar.get().trouble.join(' ')).toMatch(/unplugged/i);
    await rig.touch({ name: 'stageComplete' });
    const detail = rig.pack().detail;
    expect(detail.screen === 'stage' && detail.number).toBe(2);
  });

  it('deaf, blind and mute, the first stage is still reached by scanner and touch', async () => {
    const rig = await startRig({ ear: 'absent', camera: 'absent', mouth: 'engine' });
    await rig.badge('hazel-orrin');
    for (const serial of ['QHB-2104-017', 'KLD-3968-552', 'RSY-7590-483']) {
      await rig.scan(serial);
      await rig.touch({ name: 'affirm' });
    }
    while (rig.pack().detail.screen === 'inspection') {
      await rig.touch({ name: 'nothingFound' });
      await rig.touch({ name: 'affirm' });
    }
    for (const count of [2, 4, 1, 1]) {
      await rig.touch({ name: 'count', count, noun: 'tools' });
      await rig.touch({ name: 'affirm' });
    }
    expect(rig.pack().detail.screen).toBe('stage');
  });

  it('a device that comes back is taken into service again', async () => {
    const rig = await startRig();
    rig.camera.unplug();
    await rig.settle();
    expect(rig.kiosk.statusBar.get().camera).toBe('failed');
    await rig.kiosk.recheck();
    expect(rig.kiosk.statusBar.get().camera).toBe('on');
    expect(rig.kiosk.statusBar.get().trouble).toEqual([]);
  });
});

describe('rehearsal', () => {
  it('reads a procedure without a badge and records nothing', async () => {
    const rig = await startRig();
    rig.kiosk.acts.rehearse('corrow-c3-cargo');
    await rig.settle();
    const first = rig.view();
    expect(first.screen === 'rehearsal' && first.view.number).toBe(1);
    await rig.say({ name: 'next' });
    await rig.say({ name: 'goToStage', stage: 4 });
    const later = rig.view();
    expect(later.screen === 'rehearsal' && later.view.number).toBe(4);
    await rig.say({ name: 'finish' });
    expect(rig.view().screen).toBe('start');
    expect(rig.ledger.facts()).toEqual([]);
  });
});

describe('licences and print', () => {
  it('shows the notices and goes back', async () => {
    const rig = await startRig();
    rig.kiosk.acts.showLicences();
    await rig.settle();
    expect(rig.view().screen).toBe('licences');
    rig.kiosk.acts.leave();
    expect(rig.view().screen).toBe('start');
  });
});
