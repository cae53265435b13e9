/** `SpeechRecognition` against the Web Speech API draft of 8 May 2026 (WebAudio/web-speech-api a090a92). */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { refused } from '../../../../src/domain/result';
import { SpeechRecognition } from '../../../../src/speech/web-speech/api/recognition';
import { RECOGNITION_EVENTS } from '../../../../src/speech/web-speech/api/recognition-run';
import { SpeechRecognitionPhrase, SpeechRecognitionPhraseList } from '../../../../src/speech/web-speech/api/grammars';
import { SpeechRecognitionErrorEvent, SpeechRecognitionEvent } from '../../../../src/speech/web-speech/api/results';
import { FakeService, phrasesOf, settle, utterance } from './fake-service';

const JSGF = '#JSGF V1.0; grammar test; public <a> = stand by | say again;';
const MATCH = { kind: 'heard', words: 'stand by' } as const;
const UNSURE = { kind: 'ambiguous', candidates: ['stand by', 'say again'] } as const;

function rig(settings: Partial<SpeechRecognition> = {}) {
  const service = new FakeService();
  const recognition = new SpeechRecognition(service);
  recognition.lang = 'en-US';
  recognition.grammars.addFromString(JSGF);
  Object.assign(recognition, settings);
  const events: Event[] = [];
  for (const name of RECOGNITION_EVENTS) recognition.addEventListener(name, (event) => events.push(event));
  const names = () => events.map(({ type }) => type);
  const errors = () => events.flatMap((event) => (event instanceof SpeechRecognitionErrorEvent ? [event.error] : []));
  const transcripts = () =>
    events.flatMap((event) =>
      event instanceof SpeechRecognitionEvent && event.results !== null
        ? [[...event.results].map((result) => [...result].map(({ transcript }) => transcript))]
        : [],
    );
  return { service, recognition, events, names, errors, transcripts };
}

async function started(settings: Partial<SpeechRecognition> = {}) {
  const made = rig(settings);
  made.recognition.start();
  await settle();
  return made;
}

afterEach(() => vi.useRealTimers());

describe('one command', () => {
  it('fires every event once, in the order of the draft, and ends', async () => {
    const { service, names, transcripts } = await started();
    service.tell(...utterance(MATCH));
    expect(names()).toEqual(RECOGNITION_EVENTS.filter((name) => name !== 'nomatch' && name !== 'error'));
    expect(transcripts()).toEqual([[['stand by']]]);
  });

  it('that is none gives nomatch in the place of result', async () => {
    const { service, names } = await started();
    service.tell(...utterance({ kind: 'notHeard' }));
    expect(names()).toEqual(RECOGNITION_EVENTS.filter((name) => name !== 'result' && name !== 'error'));
  });

  it('has heard its fill: the microphone is no longer listened to when the result is told', async () => {
    const { service, recognition } = await started();
    recognition.onresult = () => expect(service.opened[0]?.closed).toBe(true);
    service.tell(...utterance(MATCH));
    expect.assertions(1);
  });

  it('tells when the speech ended, not when that was found out', async () => {
    const { service, events } = await started();
    service.tell(...utterance(MATCH, 4321));
    expect(events.find(({ type }) => type === 'speechend')?.timeStamp).toBe(4321);
  });

  it('calls handlers as well as listeners', async () => {
    const { service, recognition } = await started();
    const handler = vi.fn();
    recognition.onresult = handler;
    recognition.onend = handler;
    service.tell(...utterance(MATCH));
    expect(handler).toHaveBeenCalledTimes(2);
  });
});

describe('attributes', () => {
  it('have the defaults of the draft', () => {
    const recognition = new SpeechRecognition(new FakeService());
    const { lang, continuous, interimResults, maxAlternatives, processLocally } = recognition;
    expect({ lang, continuous, interimResults, maxAlternatives, processLocally }).toEqual({
      lang: '',
      continuous: false,
      interimResults: false,
      maxAlternatives: 1,
      processLocally: false,
    });
  });

  it('continuous: results follow one another in one list until stop', async () => {
    const { service, recognition, transcripts, names } = await started({ continuous: true });
    service.tell(...utterance(MATCH), ...utterance({ kind: 'heard', words: 'say again' }));
    expect(transcripts().at(-1)).toEqual([['stand by'], [' say again']]);
    expect(names()).not.toContain('end');
    recognition.stop();
    expect(service.opened[0]?.finished).toBe(true);
    service.tell({ kind: 'finished' });
    expect(names().slice(-2)).toEqual(['audioend', 'end']);
  });

  it('interimResults: the likely result comes before its pause is over, and is not final', async () => {
    const { service, events } = await started({ interimResults: true });
    service.tell(...utterance(MATCH));
    const finals = events.flatMap((event) =>
      event instanceof SpeechRecognitionEvent ? [event.results?.item(event.resultIndex)?.isFinal] : [],
    );
    expect(finals).toEqual([false, true]);
  });

  it('maxAlternatives: two near readings come with shared confidence, or only the first', async () => {
    for (const [maxAlternatives, expected] of [
      [2, ['stand by', 'say again']],
      [1, ['stand by']],
    ] as const) {
      const { service, transcripts, events } = await started({ maxAlternatives });
      service.tell(...utterance(UNSURE));
      expect(transcripts()).toEqual([[expected]]);
      const result = events.find((event) => event instanceof SpeechRecognitionEvent);
      expect(result?.results?.item(0)?.item(0)?.confidence).toBe(0.5);
    }
  });

  it.each([
    [0, 1],
    [3.7, 3],
    [Number.NaN, 1],
  ])('maxAlternatives %d is kept as %d', (given, kept) => {
    expect(rig({ maxAlternatives: given }).recognition.maxAlternatives).toBe(kept);
  });

  it('phrases alone are enough to listen for', async () => {
    const { service } = await started({
      grammars: new SpeechRecognition(new FakeService()).grammars,
      phrases: new SpeechRecognitionPhraseList([new SpeechRecognitionPhrase('Call the Inspector!')]),
    });
    const listened = service.opened[0]?.listened;
    expect(phrasesOf(listened?.wanted)).toEqual(['call the inspector']);
    expect(listened).toEqual({
      wanted: listened?.wanted,
      all: listened?.wanted,
      rivals: null,
      lowRisk: null,
      isSampled: false,
    });
  });

  it('those of the start hold, whatever is changed afterwards', async () => {
    const made = rig();
    made.recognition.start();
    made.recognition.continuous = true;
    await settle();
    made.service.tell(...utterance(MATCH));
    expect(made.names()).toContain('end');
  });
});

describe('starting', () => {
  it('twice is an InvalidStateError', async () => {
    const { recognition } = await started();
    expect(() => recognition.start()).toThrow(expect.objectContaining({ name: 'InvalidStateError' }));
  });

  it('again is allowed from the end event on', async () => {
    const { service, recognition } = await started();
    recognition.onend = () => recognition.start();
    service.tell(...utterance(MATCH));
    await settle();
    expect(service.opened).toHaveLength(2);
  });

  it('takes a live sound track, and no other', async () => {
    const { service, recognition } = rig();
    for (const track of [
      { kind: 'video', readyState: 'live' },
      { kind: 'audio', readyState: 'ended' },
    ]) {
      expect(() => recognition.start(track as MediaStreamTrack)).toThrow(
        expect.objectContaining({ name: 'InvalidStateError' }),
      );
    }
    const live = { kind: 'audio', readyState: 'live' } as MediaStreamTrack;
    recognition.start(live);
    await settle();
    expect(service.tracks).toEqual([live]);
  });
});

describe('errors', () => {
  it.each([
    ['denied', 'not-allowed'],
    ['absent', 'audio-capture'],
    ['unplugged', 'audio-capture'],
    ['engine', 'service-not-allowed'],
    ['model', 'service-not-allowed'],
  ] as const)('a microphone or engine that is %s at the start is %s', async (trouble, code) => {
    const made = rig();
    made.service.answer = refused(trouble, 'why');
    made.recognition.start();
    await settle();
    expect(made.names()).toEqual(['error', 'end']);
    expect(made.errors()).toEqual([code]);
  });

  it('a language without a model', async () => {
    const { names, errors } = await started({ lang: 'fr-FR' });
    expect(names()).toEqual(['error', 'end']);
    expect(errors()).toEqual(['language-not-supported']);
  });

  it('nothing to listen for: free speech is not heard', async () => {
    const { errors } = await started({ grammars: new SpeechRecognition(new FakeService()).grammars });
    expect(errors()).toEqual(['bad-grammar']);
  });

  it('a word that the engine cannot pronounce', async () => {
    const { service, names, errors } = await started();
    service.tell({ kind: 'refused', reason: 'unknown-word', detail: 'no "flumph"' });
    expect(names().slice(-3)).toEqual(['audioend', 'error', 'end']);
    expect(errors()).toEqual(['bad-grammar']);
  });

  it('a microphone that is lost in the middle of a word', async () => {
    const { service, names, errors } = await started();
    service.tell(...utterance(MATCH).slice(0, 2), { kind: 'lost', trouble: 'unplugged', detail: 'gone' });
    expect(names().slice(-5)).toEqual(['speechend', 'soundend', 'audioend', 'error', 'end']);
    expect(errors()).toEqual(['audio-capture']);
  });

  it('nothing said for eight seconds is no-speech, once speech has begun it is not', async () => {
    vi.useFakeTimers();
    const silent = await started();
    vi.advanceTimersByTime(7999);
    expect(silent.errors()).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(silent.errors()).toEqual(['no-speech']);
    const spoken = await started();
    spoken.service.tell(...utterance(MATCH).slice(0, 2));
    vi.advanceTimersByTime(20_000);
    expect(spoken.errors()).toEqual([]);
  });
});

describe('stop and abort', () => {
  it('stop decides on what was said so far', async () => {
    const { service, recognition, names } = await started();
    service.tell(...utterance(MATCH).slice(0, 2));
    recognition.stop();
    recognition.stop();
    service.tell(...utterance(MATCH).slice(3));
    expect(names().slice(-3)).toEqual(['audioend', 'result', 'end']);
  });

  it('abort tells nothing but the end', async () => {
    const { service, recognition, names } = await started();
    service.tell(...utterance(MATCH).slice(0, 2));
    recognition.abort();
    service.tell(...utterance(MATCH).slice(3));
    expect(names().slice(4)).toEqual(['speechend', 'soundend', 'audioend', 'end']);
    expect(service.opened[0]?.closed).toBe(true);
  });

  it('abort before the microphone answers opens nothing', async () => {
    const { service, recognition, names } = rig();
    recognition.start();
    recognition.abort();
    await settle();
    expect(names()).toEqual(['end']);
    expect(service.opened).toEqual([]);
  });

  it('both do nothing when nothing runs', () => {
    const { recognition, names } = rig();
    recognition.stop();
    recognition.abort();
    expect(names()).toEqual([]);
  });
});

describe('availability', () => {
  it.each([
    [['en-US'], 'available', true],
    [['en', 'en-us'], 'available', true],
    [['en-US', 'fr'], 'unavailable', false],
    [[], 'unavailable', false],
  ] as const)('of %j is %s', async (langs, status, installed) => {
    expect(await SpeechRecognition.available({ langs, processLocally: true })).toBe(status);
    expect(await SpeechRecognition.install({ langs })).toBe(installed);
  });

  it('of what is no language tag is a SyntaxError', async () => {
    await expect(SpeechRecognition.available({ langs: ['english, please'] })).rejects.toEqual(
      expect.objectContaining({ name: 'SyntaxError' }),
    );
  });
});
