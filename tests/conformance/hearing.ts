/** What any ear must do; runs on the fake and, in Chromium, on the real one with real sound. */
import type { Command } from '../../src/domain/command';
import type { Heard, HearingPort } from '../../src/voice/hearing';

export interface HearingRig {
  readonly port: HearingPort;
  /** Makes the sound of this command, and waits until the ear has had time to decide. */
  readonly speak: (command: Command) => Promise<void>;
}

export async function hearingConformance(rig: HearingRig): Promise<readonly string[]> {
  const broken: string[] = [];
  const { port } = rig;
  const heard: Heard[] = [];
  const forget = port.onHeard((one) => heard.push(one));
  if (!(await port.prepare()).ok) return ['prepare: must succeed on a working ear'];
  const names = (): string => heard.map((one) => (one.kind === 'heard' ? one.command.name : one.kind)).join(' ');

  const expect = async (said: Command, wanted: string, promise: string): Promise<void> => {
    heard.length = 0;
    await rig.speak(said);
    if (names() !== wanted) broken.push(`${promise} (said ${said.name}, got "${names()}")`);
  };

  await expect({ name: 'affirm' }, '', 'before listen: nothing may be heard');
  port.listen({ commands: ['affirm', 'negative', 'sayAgain'], nouns: [] });
  await expect({ name: 'sayAgain' }, 'sayAgain', 'listen: a legal command must be heard');
  await expect(
    { name: 'stageComplete' },
    'notHeard',
    'listen: a command that is not legal must not be heard as anything',
  );
  port.listen({ commands: ['stageComplete', 'standBy', 'count'], nouns: ['stows'] });
  await expect({ name: 'stageComplete' }, 'stageComplete', 'listen: a new vocabulary must replace the old one');
  await expect({ name: 'count', count: 5, noun: 'stows' }, 'count', 'listen: a count of a legal noun must be heard');
  port.hush();
  await expect({ name: 'stageComplete' }, '', 'hush: nothing may be heard while closed');
  port.listen({ commands: ['stageComplete'], nouns: [] });
  await expect({ name: 'stageComplete' }, 'stageComplete', 'listen: must open again after hush');
  forget();
  await expect({ name: 'stageComplete' }, '', 'onHeard: a removed listener must not be called');
  return broken;
}
