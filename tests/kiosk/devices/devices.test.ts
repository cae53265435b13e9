/** The self-check: a part is said to work only after it was tried. */
import { describe, expect, it } from 'vitest';
import { createDevices } from '../../../src/kiosk/devices/devices';
import type { Part } from '../../../src/screens/contract/start-view';
import type { HearingTrouble } from '../../../src/voice/hearing';
import { fakeEar } from '../../fakes/ear';
import { fakeScanner } from '../../fakes/scanner';
import { fakeMouth } from '../../fakes/mouth';

async function statesWith(trouble: HearingTrouble): Promise<(part: Part) => string | undefined> {
  const parts = {
    ear: fakeEar({ trouble }),
    mouth: fakeMouth({ instant: true }),
    camera: fakeScanner(),
    wedge: fakeScanner(),
  };
  const devices = createDevices(parts, () => undefined);
  const seen: string[] = [];
  devices.checks.subscribe(() => {
    for (const { part, state } of devices.checks.get()) seen.push(`${part} ${state}`);
  });
  await devices.prepare();
  return (part) => {
    const state = devices.checks.get().find((line) => line.part === part)?.state;
    // Not even for a moment.
    return state === 'works' ? state : `${String(state)}${seen.includes(`${part} works`) ? ', but worked before' : ''}`;
  };
}

describe('a part that was not tried', () => {
  it.each<[HearingTrouble, string, string]>([
    ['engine', 'untried', 'failed'],
    ['model', 'untried', 'failed'],
    ['denied', 'failed', 'works'],
    ['absent', 'failed', 'works'],
  ])(
    'is not said to work: %s leaves the microphone %s and the recogniser %s',
    async (trouble, microphone, recogniser) => {
      const stateOf = await statesWith(trouble);
      expect(stateOf('microphone')).toBe(microphone);
      expect(stateOf('recogniser')).toBe(recogniser);
    },
  );
});
