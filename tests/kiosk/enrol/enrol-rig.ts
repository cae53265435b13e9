/** The running kiosk at the enrolment of a voice: at the badge, in the middle of a reading, and what is read. */
import { voiceOwner } from '../../../src/kiosk/enrol/owner';
import { LINES_MIN } from '../../../src/kiosk/enrol/reading';
import type { EnrolView } from '../../../src/screens/contract/enrol-view';
import { fakeSampleStore, type FakeSampleStore } from '../../fakes/sample-store';
import { LINES, startRig, type KioskRig } from '../rig';

export const HAZEL = voiceOwner({ id: 'hazel-orrin' });
export const INES = voiceOwner({ id: 'ines-calloway' });
/** What somebody who does not inspect reads. */
export const OWN_LINES = LINES.map(({ words }) => words).filter((words) => !/release|rework/.test(words));

export const SOME = OWN_LINES.slice(0, LINES_MIN);

export interface EnrolRig extends KioskRig {
  readonly sampleStore: FakeSampleStore;
  enrol(): EnrolView;
}

export async function atBadge(
  sampleStore = fakeSampleStore(),
  options: Parameters<typeof startRig>[0] = {},
): Promise<EnrolRig> {
  const rig = await startRig({ sampleStore, ...options });
  rig.kiosk.acts.teachVoice?.();
  await rig.settle();
  const enrol = (): EnrolView => {
    const view = rig.view();
    if (view.screen !== 'enrol') throw new Error(`no enrolment is shown but ${view.screen}`);
    return view.enrol;
  };
  return { ...rig, sampleStore, enrol };
}

export async function reading(sampleStore = fakeSampleStore(), person = 'hazel-orrin'): Promise<EnrolRig> {
  const rig = await atBadge(sampleStore);
  await rig.badge(person);
  await rig.touch({ name: 'affirm' });
  return rig;
}

export const line = (rig: EnrolRig): string | null => {
  const { step } = rig.enrol();
  return step.at === 'reading' ? step.words : null;
};

export async function readAll(rig: EnrolRig): Promise<void> {
  for (let words = line(rig); words !== null; words = line(rig)) await rig.read(words);
}

/** Enough to be of use. */
export async function readSome(rig: EnrolRig): Promise<void> {
  for (const words of SOME) await rig.read(words);
}
