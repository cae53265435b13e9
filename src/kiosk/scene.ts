/** What is drawn, said and listened for, from what the kiosk is doing now. */
import type { Loft } from '../domain/loft';
import type { AppView } from '../screens/contract/app-view';
import type { CamerasView, RefusedFile, SelfCheckLine } from '../screens/contract/start-view';
import type { PinView } from '../screens/contract/pin-view';
import type { ProofState } from '../screens/contract/proof-view';
import type { RecordsView } from '../screens/contract/records-view';
import { hasDemonstration } from '../packing/words/notices';
import type { LegalCommand, Prompt } from '../packing/machine/view';
import type { Opening } from './conversation';
import type { EnrolPage } from './enrol/enrol-page';
import { procedureChoices } from './loading';
import type { PackRunner } from './pack-runner';
import type { RehearsalRunner } from './rehearsal-runner';
import type { TagsPage } from './tags/tags-page';
import { vocabularyOf } from './vocabulary';

export type Mode =
  | { readonly in: 'loading' | 'start' | 'licences' | 'records' | 'fault' }
  | { readonly in: 'pack'; readonly runner: PackRunner }
  | { readonly in: 'rehearsal'; readonly runner: RehearsalRunner }
  | { readonly in: 'enrol'; readonly page: EnrolPage }
  | { readonly in: 'tags'; readonly page: TagsPage };

export interface Scene {
  readonly view: AppView;
  readonly prompt: Prompt | null;
  /** What the ear is opened for after the prompt; null for nothing. */
  readonly opening: Opening | null;
  readonly rate: number;
}

/** The PIN itself is never spoken, shown or listened for. */
const ASK_PIN = { say: 'Enter your PIN on the pad.', show: 'Enter your PIN on the pad.' };

function openingOf(legal: readonly LegalCommand[]): Opening | null {
  return legal.length === 0 ? null : vocabularyOf(legal);
}

interface PackSurroundings {
  readonly proof: ProofState | null;
  readonly pin: PinView | null;
  readonly filesTrouble: string | null;
}

/** A pack, with the pad for a PIN over it where one is asked for. */
function packScene(runner: PackRunner, { proof, pin, filesTrouble }: PackSurroundings, rate: number): Scene {
  const view = runner.view();
  if (pin !== null) {
    const prompt = { key: pin.key, ...ASK_PIN };
    return { view: { screen: 'pack', view, proof, pin, filesTrouble }, prompt, opening: null, rate };
  }
  const opening = view.storing ? null : openingOf(view.legal);
  return { view: { screen: 'pack', view, proof, filesTrouble }, prompt: view.prompt, opening, rate };
}

/** The open tags, with the pad for a PIN over them where one is asked for. */
function tagsScene(page: TagsPage, rate: number): Scene {
  const tags = page.view();
  const pin = page.pin.view();
  if (pin !== null) {
    const prompt = { key: pin.key, ...ASK_PIN };
    return { view: { screen: 'tags', tags, pin }, prompt, opening: null, rate };
  }
  return { view: { screen: 'tags', tags }, prompt: tags.prompt, opening: openingOf(tags.legal), rate };
}

function rehearsalScene(runner: RehearsalRunner): Scene {
  const view = runner.view();
  const { prompt, legal, rate } = view;
  return { view: { screen: 'rehearsal', view }, prompt, opening: openingOf(legal), rate };
}

function enrolScene(page: EnrolPage, rate: number): Scene {
  const enrol = page.view();
  const line = page.line();
  return { view: { screen: 'enrol', enrol }, prompt: enrol.prompt, opening: line === null ? null : { line }, rate };
}

function recordsScene(records: RecordsView, pin: PinView | null, rate: number): Scene {
  return { view: { screen: 'records', records, pin }, prompt: null, opening: null, rate };
}

export interface Around extends PackSurroundings {
  readonly records: RecordsView | null;
}

/** The scene of whatever goes on now; null where it has none of its own. */
export function sceneOf(mode: Mode, { records, ...around }: Around, rate: number): Scene | null {
  if (mode.in === 'pack') return packScene(mode.runner, around, rate);
  if (mode.in === 'rehearsal') return rehearsalScene(mode.runner);
  if (mode.in === 'enrol') return enrolScene(mode.page, rate);
  if (mode.in === 'tags') return tagsScene(mode.page, rate);
  return mode.in === 'records' && records !== null ? recordsScene(records, around.pin, rate) : null;
}

export interface StartState {
  readonly loft: Loft;
  readonly notice: string | null;
  /** Counts arrivals at the start screen, so that each is spoken. */
  readonly starts: number;
  readonly checks: readonly SelfCheckLine[];
  readonly refusedFiles: readonly RefusedFile[];
  readonly cameras: CamerasView | null;
  readonly teachesVoice: boolean;
}

export function startScene({ loft, starts, ...state }: StartState): Scene {
  const { notice } = state;
  const say = `${notice === null ? '' : `${notice} `}Scan your badge.`;
  const prompt = { key: `start:${starts}`, say, show: 'Scan your badge' };
  const { name, table, speakingRate } = loft.settings;
  const start = {
    loft: name,
    table,
    procedures: procedureChoices(loft),
    prompt,
    demonstration: hasDemonstration(loft),
    ...state,
  };
  return { view: { screen: 'start', start }, prompt, opening: null, rate: speakingRate };
}
