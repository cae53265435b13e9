/** What any voice must do; runs on the fake and, in Chromium, on the real one. Returns the broken promises, none when it conforms. */
import type { SpeakingPort } from '../../src/voice/speaking';

/** `finish` lets a fake sentence end; a real voice ends by itself. */
export interface SpeakingRig {
  readonly port: SpeakingPort;
  readonly finish: () => Promise<void>;
}

export async function speakingConformance(rig: SpeakingRig): Promise<readonly string[]> {
  const broken: string[] = [];
  const { port } = rig;
  const ready = await port.prepare();
  if (!ready.ok) return ['prepare: must succeed on a working voice'];

  const whole = port.say('One.', 1);
  await rig.finish();
  if ((await whole) !== 'done') broken.push('say: must resolve done when the last sound was played');

  const first = port.say('This sentence is cut off by the next one.', 1);
  const second = port.say('Two.', 1);
  if ((await first) !== 'stopped') broken.push('say: must resolve stopped when another sentence replaces it');
  await rig.finish();
  if ((await second) !== 'done') broken.push('say: the replacing sentence must be played to its end');

  const cut = port.say('This sentence is stopped.', 1);
  port.stop();
  if ((await cut) !== 'stopped') broken.push('stop: must resolve the present sentence as stopped');

  port.stop();
  const after = port.say('Three.', 1.5);
  await rig.finish();
  if ((await after) !== 'done') broken.push('say: must work after stop without a sentence');
  if (!(await port.prepare()).ok) broken.push('prepare: must be safe to call again');
  return broken;
}
