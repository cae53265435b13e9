/** Frames in which the package is loaded anew: its own window, its own interfaces, other rights. */
import { apiOf, type SpeechApi } from './api';

const SCRIPT = import.meta.url;

export interface Frame {
  readonly api: SpeechApi;
  readonly window: Window;
  remove(): void;
}

/** A frame of this page with the package in it. `allow` is its permissions policy. */
export async function openFrame(allow = ''): Promise<Frame> {
  const element = document.createElement('iframe');
  element.setAttribute('allow', allow);
  document.body.append(element);
  const { contentWindow: window, contentDocument: inside } = element;
  if (window === null || inside === null) throw new Error('the frame has no page');
  const script = inside.createElement('script');
  script.type = 'module';
  script.src = SCRIPT;
  const loaded = new Promise((resolve, reject) => {
    script.onload = resolve;
    script.onerror = () => reject(new Error('the package does not load in a frame'));
  });
  inside.body.append(script);
  await loaded;
  return { api: apiOf(window), window, remove: () => element.remove() };
}

/** What a frame of another origin answers when it asks for recognition. */
export interface ForeignAnswer {
  readonly available: string;
  readonly install: string;
  readonly message: string;
}

/** A sandboxed frame has an origin that nothing else has. */
export async function askForeignFrame(): Promise<ForeignAnswer> {
  const element = document.createElement('iframe');
  element.setAttribute('sandbox', 'allow-scripts');
  element.srcdoc = `<!doctype html><body><script type="module" crossorigin src="${SCRIPT}"></script>`;
  const answered = new Promise<ForeignAnswer>((resolve) => {
    window.addEventListener('message', ({ source, data }) => {
      if (source === element.contentWindow) resolve(data as ForeignAnswer);
    });
  });
  document.body.append(element);
  return answered.finally(() => element.remove());
}

/** In such a frame: asks, and tells the page around it. */
export async function answerFromFrame(): Promise<void> {
  if (window.origin !== 'null') return;
  const { SpeechRecognition } = apiOf();
  const options = { langs: ['en-US'], processLocally: true };
  const available = await SpeechRecognition.available(options).catch(String);
  const { name, message } = await SpeechRecognition.install(options).then(
    (installed) => ({ name: String(installed), message: '' }),
    (error: Error) => error,
  );
  window.parent.postMessage({ available, install: name, message } satisfies ForeignAnswer, '*');
}
