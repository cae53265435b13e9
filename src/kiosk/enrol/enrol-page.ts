/** One enrolment from badge to kept samples: what is pressed, scanned and heard goes in, and steps come of it. */
import type { Command } from '../../domain/command';
import { mayEnrol, personOfBadge, type Person } from '../../domain/person';
import { dateOf } from '../../domain/instant';
import type { Loft } from '../../domain/loft';
import type { Result } from '../../domain/result';
import type { Sighting } from '../../domain/sighting';
import type { EnrolOutcome, EnrolView } from '../../screens/contract/enrol-view';
import type { Notice } from '../../packing/machine/view';
import type { VoiceSample } from '@stowcall/web-speech/core';
import type { VoiceSampleStore } from '../../voice/voice-sample-store';
import { legalAt, lineAt, type Step } from './enrol-step';
import { enrolView } from './enrol-words';
import { voiceOwner } from './owner';
import { sayHearingTrouble } from '../devices/self-check';
import { isDeaf, type ReadTrouble } from './patient-sample';
import { phrasesFor, type PhraseToRead } from './phrases-to-read';
import { beginReading, heardLine, isEnough, isLeft, isRead, missedLine, skipLine, type Reading } from './reading';

export interface EnrolPageParts {
  readonly loft: Loft;
  readonly sampleStore: VoiceSampleStore;
  readonly phrases: readonly PhraseToRead[];
  readonly onChange: () => void;
  /** Back to the start screen. */
  readonly leave: () => void;
}

export interface EnrolPage {
  view(): EnrolView;
  /** The line that is to be heard now; null for none, and then the ear stays closed. */
  line(): string | null;
  command(command: Command): void;
  sighted(sighting: Sighting): void;
  sampled(sample: Result<VoiceSample, ReadTrouble>): void;
}

interface Ending {
  readonly outcome: EnrolOutcome;
  readonly reading: Reading;
  readonly notice?: Notice | null;
}

type At<K extends Step['at']> = Extract<Step, { at: K }>;

/** Begins with the badge. Nothing is kept before a reading has come to its end, or was affirmed after a stop. */
export function createEnrolPage(parts: EnrolPageParts): EnrolPage {
  return new Enrolment(parts);
}

class Enrolment implements EnrolPage {
  private step: Step = { at: 'badge' };
  private notice: Notice | null = null;
  private utterance = 0;
  /** The sample store is being asked: what comes meanwhile was not meant for the answer. */
  private isAsking = false;

  constructor(private readonly parts: EnrolPageParts) {}

  view(): EnrolView {
    return enrolView(this.step, this.notice, this.utterance);
  }

  line(): string | null {
    return lineAt(this.step);
  }

  command({ name }: Command): void {
    const { step } = this;
    if (!legalAt(step).some((legal) => legal.name === name)) return;
    if (step.at === 'reading') return this.pressedWhileReading(step, name);
    // Also while the sample store does not answer.
    if (name === 'finish') return this.parts.leave();
    if (this.isAsking) return;
    if (step.at === 'ready' && name === 'affirm') return this.begin(step);
    if (step.at === 'ready' && name === 'correction') return void this.erase(step);
    if (step.at === 'stopped' && name === 'affirm') return void this.keep(step.person, step.reading);
    if (step.at === 'stopped') return this.done(step.person, { outcome: 'nothing', reading: step.reading });
  }

  /** A badge counts before the reading; during it whatever lies in view was not meant. */
  sighted({ meaning, at }: Sighting): void {
    if (this.isAsking || (this.step.at !== 'badge' && this.step.at !== 'ready')) return;
    if (meaning.kind === 'refused') return this.refuse(`${meaning.detail} Scan your badge.`);
    if (meaning.kind !== 'badge') return this.refuse('That is not a badge. Scan your badge.');
    const person = personOfBadge(this.parts.loft.people, meaning.badgeDigest);
    if (person === null) return this.refuse('The loft does not know this badge. Ask the lead.');
    void this.meet(person, mayEnrol(person, dateOf(at)));
  }

  sampled(sample: Result<VoiceSample, ReadTrouble>): void {
    const { step } = this;
    if (step.at !== 'reading') return;
    if (sample.ok) return this.read(step, heardLine(step.reading, sample.value));
    const { reason } = sample;
    if (isDeaf(reason)) return this.halt(step, { tone: 'refusal', text: sayHearingTrouble(reason).text });
    // Stopped by somebody else than us counts as a try, so that this cannot go on for ever.
    this.read(step, missedLine(step.reading, reason === 'stopped' ? 'silence' : reason));
  }

  private go(step: Step, notice: Notice | null = null): void {
    this.step = step;
    this.notice = notice;
    this.utterance += 1;
    this.parts.onChange();
  }

  private refuse(text: string): void {
    this.go({ at: 'badge' }, { tone: 'refusal', text });
  }

  /** Whoever may no longer work here can still have their voice erased, but not read it anew. */
  private async meet(person: Person, may: Result<void>): Promise<void> {
    this.isAsking = true;
    const found = await this.parts.sampleStore.find(voiceOwner(person));
    this.isAsking = false;
    if (!found.ok) return this.refuse(found.detail);
    const { samples, skipped } = found.value;
    const isKept = samples.length > 0 || skipped.length > 0;
    if (!may.ok && !isKept) return this.refuse(may.detail);
    const notice = may.ok ? damageOf(skipped) : may.detail;
    this.go(
      {
        at: 'ready',
        person,
        lines: this.linesOf(person).length,
        kept: samples.length,
        damaged: skipped.length,
        mayRead: may.ok,
      },
      notice === null ? null : { tone: 'warning', text: notice },
    );
  }

  private linesOf(person: Person): readonly PhraseToRead[] {
    return phrasesFor(this.parts.phrases, person.roles.includes('inspector'));
  }

  private begin({ person, kept }: At<'ready'>): void {
    const reading = beginReading(this.linesOf(person));
    this.go({ at: 'reading', person, reading, replaces: kept > 0, aloud: false });
  }

  private pressedWhileReading(step: At<'reading'>, name: Command['name']): void {
    if (name === 'finish') return this.halt(step, null);
    if (name === 'sayAgain') return this.go({ ...step, aloud: true });
    if (name === 'next') return this.read(step, skipLine(step.reading));
  }

  private read(step: At<'reading'>, reading: Reading): void {
    if (isRead(reading)) return void this.keep(step.person, reading);
    if (isLeft(reading)) {
      return this.halt({ ...step, reading }, { tone: 'warning', text: 'Nobody has spoken for a while.' });
    }
    this.go({ ...step, reading, aloud: false });
  }

  /** Stopped before the end: nothing is kept unless it is affirmed, and too little not at all. */
  private halt({ person, reading, replaces }: At<'reading'>, notice: Notice | null): void {
    if (!isEnough(reading)) return this.done(person, { outcome: 'nothing', reading, notice });
    this.go({ at: 'stopped', person, reading, replaces }, notice);
  }

  private async keep(person: Person, reading: Reading): Promise<void> {
    if (!isEnough(reading)) return this.done(person, { outcome: 'nothing', reading });
    this.go({ at: 'storing', person });
    const kept = await this.parts.sampleStore.keep(voiceOwner(person), reading.taken);
    if (kept.ok) this.done(person, { outcome: 'kept', reading });
    else this.done(person, { outcome: 'nothing', reading, notice: { tone: 'refusal', text: kept.detail } });
  }

  private async erase(step: At<'ready'>): Promise<void> {
    const { person } = step;
    this.go({ at: 'storing', person });
    const erased = await this.parts.sampleStore.erase(voiceOwner(person));
    if (erased.ok) return this.go({ at: 'done', person, outcome: 'erased', taken: 0, of: 0 });
    this.go(step, { tone: 'refusal', text: erased.detail });
  }

  private done(person: Person, { outcome, reading, notice = null }: Ending): void {
    this.go({ at: 'done', person, outcome, taken: reading.taken.length, of: reading.phrases.length }, notice);
  }
}

/** What cannot be used of a voice that is kept; null for nothing. */
function damageOf(skipped: readonly string[]): string | null {
  const [first] = skipped;
  if (first === undefined) return null;
  return skipped.length === 1 ? first : `${first} ${String(skipped.length)} lines in all cannot be used.`;
}
