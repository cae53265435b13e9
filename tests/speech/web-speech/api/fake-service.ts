/** A recognition service for tests: the test says what the sound is. */
import type { Result } from '../../../../src/domain/result';
import { ok } from '../../../../src/domain/result';
import type { HearingTrouble } from '../../../../src/voice/hearing';
import type { VoiceSample } from '../../../../src/speech/web-speech/rescoring/voice-sample';
import type { Automaton } from '../../../../src/speech/web-speech/engine/automaton';
import type { ListenFor } from '../../../../src/speech/web-speech/decision/listen-for';
import { Listeners } from '../../../../src/speech/web-speech/api/listeners';
import type { RecognitionService, Session, SessionEvent } from '../../../../src/speech/web-speech/api/service';

export class FakeService implements RecognitionService {
  readonly opened: {
    readonly listened: ListenFor;
    readonly guardMs: number;
    closed: boolean;
    finished: boolean;
  }[] = [];
  readonly tracks: (MediaStreamTrack | undefined)[] = [];
  known: readonly VoiceSample[] = [];
  answer: Result<void, HearingTrouble> = ok(undefined);
  #sink: ((event: SessionEvent) => void) | null = null;
  readonly #troubles = new Listeners<[trouble: HearingTrouble, detail: string]>();
  readonly #levels = new Listeners<[level: number]>();

  prepare(track?: MediaStreamTrack): Promise<Result<void, HearingTrouble>> {
    this.tracks.push(track);
    return Promise.resolve(this.answer);
  }

  open(listened: ListenFor, guardMs: number, sink: (event: SessionEvent) => void): Session {
    const session = { listened, guardMs, closed: false, finished: false };
    this.opened.push(session);
    this.#sink = sink;
    return {
      finish: () => {
        session.finished = true;
      },
      close: () => {
        session.closed = true;
        if (this.#sink === sink) this.#sink = null;
      },
    };
  }

  know(samples: readonly VoiceSample[]): void {
    this.known = samples;
  }

  /** Positions are milliseconds here. */
  timeOf(position: number): number {
    return position;
  }

  onLevel(listener: (level: number) => void): () => void {
    return this.#levels.add(listener);
  }

  onTrouble(listener: (trouble: HearingTrouble, detail: string) => void): () => void {
    return this.#troubles.add(listener);
  }

  tell(...events: SessionEvent[]): void {
    for (const event of events) this.#sink?.(event);
  }

  level(level: number): void {
    this.#levels.tell(level);
  }

  trouble(trouble: HearingTrouble, detail: string): void {
    this.tell({ kind: 'lost', trouble, detail });
    this.#troubles.tell(trouble, detail);
  }
}

/** One utterance from beginning to end, with the verdict on it. */
export function utterance(verdict: Extract<SessionEvent, { kind: 'final' }>['verdict'], end = 1000): SessionEvent[] {
  return [
    { kind: 'soundStart', at: end - 800 },
    { kind: 'speechStart', at: end - 700 },
    { kind: 'interim', verdict },
    { kind: 'speechEnd', at: end },
    { kind: 'soundEnd', at: end },
    { kind: 'final', verdict, end },
  ];
}

/** Lets promises that are settled already run on. */
export async function settle(): Promise<void> {
  for (let turn = 0; turn < 10; turn += 1) await Promise.resolve();
}

/** Every word that can be said with it. */
export function wordsOf(automaton: Automaton | null | undefined): readonly string[] {
  return [...new Set((automaton?.ways ?? []).flatMap((ways) => [...ways.keys()]))];
}

/** Every phrase of a small automaton without loops, sorted. */
export function phrasesOf(automaton: Automaton | undefined, from = 0): readonly string[] {
  const ends = automaton?.accepting[from] === true ? [''] : [];
  const longer = [...(automaton?.ways[from] ?? [])].flatMap(([word, to]) =>
    phrasesOf(automaton, to).map((rest) => `${word} ${rest}`.trim()),
  );
  return [...ends, ...longer].sort();
}
