/** What any ear that learns voices must do; runs on the fake and, in Chromium, on the real one with real sound. */
import type { Command } from '../../src/domain/command';
import type { Result } from '../../src/domain/result';
import type { EnrollingPort, SampleTrouble } from '../../src/voice/enrolling';
import type { Heard, HearingPort } from '../../src/voice/hearing';
import type { VoiceSample } from '@stowcall/web-speech/core';
import { parseVoiceSample } from '@stowcall/web-speech/core';

/** Plain commands with the words that the phrase book has for them. */
export const SPOKEN = {
  stageComplete: 'stage complete',
  sayAgain: 'say again',
  standBy: 'stand by',
} as const;
type Spoken = keyof typeof SPOKEN;

export interface EnrollingRig {
  readonly port: HearingPort & EnrollingPort;
  /** Makes the sound of this command, and waits until the ear has had time to decide. */
  readonly say: (command: Command & { readonly name: Spoken }) => Promise<void>;
}

type Sampled = Result<VoiceSample, SampleTrouble>;

class Checks {
  readonly broken: string[] = [];
  readonly heard: Heard[] = [];

  constructor(private readonly rig: EnrollingRig) {
    rig.port.onHeard((one) => this.heard.push(one));
  }

  names(): string {
    return this.heard.map((one) => (one.kind === 'heard' ? one.command.name : one.kind)).join(' ');
  }

  /** A sample that is open while `meanwhile` happens; null where it has not ended afterwards. */
  async sampleWhile(words: string, meanwhile: () => Promise<void> | void): Promise<Sampled | null> {
    const box: { sample: Sampled | null } = { sample: null };
    const asked = this.rig.port.sample(words).then((sample) => {
      box.sample = sample;
    });
    await meanwhile();
    await Promise.race([asked, new Promise((done) => setTimeout(done, 50))]);
    return box.sample;
  }

  check(holds: boolean, promise: string, got: unknown = ''): void {
    if (!holds) this.broken.push(`${promise} (got ${JSON.stringify(got)})`);
  }

  async stopsAt(what: string, stop: () => void): Promise<void> {
    const { port } = this.rig;
    const sample = await this.sampleWhile(SPOKEN.standBy, stop);
    this.check(sample?.ok === false && sample.reason === 'stopped', `${what}: must end a sample as stopped`, sample);
    port.hush();
  }
}

/** The promises that are broken; none is as it should be. */
export async function enrollingConformance(rig: EnrollingRig): Promise<readonly string[]> {
  const { port } = rig;
  const checks = new Checks(rig);
  if (!(await port.prepare()).ok) return ['prepare: must succeed on a working ear'];

  const first = await checks.sampleWhile(SPOKEN.stageComplete, () => rig.say({ name: 'stageComplete' }));
  const taken = first?.ok === true ? first.value : null;
  checks.check(taken?.words === SPOKEN.stageComplete, 'sample: the words that were asked for must be sampled', first);
  checks.check(parseVoiceSample(taken).ok, 'sample: must be whole and short enough to be kept', taken?.words);
  await rig.say({ name: 'stageComplete' });
  checks.check(checks.names() === '', 'sample: what is said then must never be a command', checks.names());

  const other = await checks.sampleWhile(SPOKEN.stageComplete, () => rig.say({ name: 'standBy' }));
  checks.check(other?.ok === false && other.reason === 'not-these-words', 'sample: other words must be refused', other);

  await checks.stopsAt('stopSampling', () => port.stopSampling());
  await checks.stopsAt('hush', () => port.hush());
  await checks.stopsAt('listen', () => port.listen({ commands: ['affirm'], nouns: [] }));
  await checks.stopsAt('a second sample', () => {
    void port.sample(SPOKEN.sayAgain);
  });

  // Both that are known and others: a voice makes nothing legal that is not.
  port.know(taken === null ? [] : [taken]);
  checks.heard.length = 0;
  port.listen({ commands: ['sayAgain', 'standBy'], nouns: [] });
  await rig.say({ name: 'stageComplete' });
  checks.check(checks.names() === 'notHeard', 'know: must make nothing heard that is not legal', checks.names());
  checks.heard.length = 0;
  port.listen({ commands: ['stageComplete', 'sayAgain'], nouns: [] });
  await rig.say({ name: 'stageComplete' });
  await rig.say({ name: 'sayAgain' });
  checks.check(
    checks.names() === 'stageComplete sayAgain',
    'know: what is legal must be heard, of that voice and others',
    checks.names(),
  );
  checks.heard.length = 0;
  port.know([]);
  await rig.say({ name: 'stageComplete' });
  checks.check(checks.names() === 'stageComplete', 'know: without anybody it must hear as before', checks.names());
  port.hush();
  return checks.broken;
}
