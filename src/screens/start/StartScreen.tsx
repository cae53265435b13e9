/** The start: scan a badge, or hear a procedure; and whether every part of the kiosk works. */
import type { ReactElement } from 'react';
import type { Acts } from '../contract/acts';
import type { CamerasView, Part, RefusedFile, SelfCheckLine, StartView } from '../contract/start-view';
import { CameraPicture } from '../parts/CameraPicture';
import { NoticePanel } from '../parts/Notice';
import { SafetyNote } from './SafetyNote';
import { PassMark, PendingMark, TagMark } from '../parts/Shapes';
import { Said, Sheet } from '../parts/Sheet';
import { LevelBar } from '../parts/StatusBar';
import type { ScreenOf, ScreenProps } from '../screen-of';

/**
 * The guide for users. It takes the place of this page, so it is offered only where no pack is open; each of its pages
 * leads back.
 */
const GUIDE = '/guide/index.html';

const PART_WORDS: Readonly<Record<Part, string>> = {
  microphone: 'Microphone',
  camera: 'Camera',
  voice: 'Voice',
  recogniser: 'Recogniser',
  storage: 'Storage',
};

const STATE_WORDS: Readonly<Record<SelfCheckLine['state'], string>> = {
  checking: 'being checked',
  works: 'works',
  failed: 'failed',
  untried: 'not tried',
};

const STATE_MARKS: Readonly<Record<SelfCheckLine['state'], () => ReactElement>> = {
  checking: PendingMark,
  works: PassMark,
  failed: TagMark,
  untried: PendingMark,
};

interface SelfCheckProps {
  readonly checks: readonly SelfCheckLine[];
  readonly cameras: CamerasView | null;
  readonly acts: Acts;
}

/** Which of several cameras looks, and the way to another. */
function CameraTurn({ cameras, acts }: { readonly cameras: CamerasView; readonly acts: Acts }): ReactElement {
  const { used, count } = cameras;
  return (
    <span className="part-detail part-choice">
      <span>{used ?? `${String(count)} cameras are connected`}</span>{' '}
      <button type="button" className="small-button" onClick={() => acts.useNextCamera?.()}>
        Use another camera
      </button>
    </span>
  );
}

function SelfCheck({ checks, cameras, acts }: SelfCheckProps): ReactElement {
  return (
    <section className="panel self-check" aria-labelledby="self-check">
      <div className="panel-head">
        <h2 id="self-check">Self-check</h2>
        <button type="button" className="small-button" onClick={() => acts.retry()}>
          Check again
        </button>
      </div>
      <ul>
        {checks.map(({ part, state, detail }) => {
          const StateMark = STATE_MARKS[state];
          return (
            <li key={part} className={`part part-${state}`}>
              <StateMark />
              <span className="part-name">{PART_WORDS[part]}</span>{' '}
              <span className="part-state">{STATE_WORDS[state]}</span>{' '}
              {part === 'microphone' && state === 'works' ? <LevelBar /> : null}
              {detail === '' ? null : <span className="part-detail">{detail}</span>}
              {part === 'camera' && cameras !== null ? <CameraTurn cameras={cameras} acts={acts} /> : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

interface ProceduresProps {
  readonly start: StartView;
  readonly acts: Acts;
}

function Procedures({ start, acts }: ProceduresProps): ReactElement {
  return (
    <section className="panel" aria-labelledby="procedures">
      <h2 id="procedures">Hear a procedure</h2>
      <p className="aside">No badge needed, nothing recorded.</p>
      {start.procedures.length === 0 ? <p>No procedure could be loaded.</p> : null}
      <ul className="procedures">
        {start.procedures.map(({ id, title, revision, stages, holds, demonstration }) => (
          <li key={id}>
            <button type="button" className="command procedure" onClick={() => acts.rehearse(id)}>
              <span className="command-label">{title}</span>{' '}
              <span className="command-phrase">
                Revision {revision}, {stages} stages, {holds} holds
                {demonstration === true ? ', demonstration only' : ''}
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function YourVoice({ acts }: { readonly acts: Acts }): ReactElement {
  return (
    <button type="button" className="command procedure" onClick={() => acts.teachVoice?.()}>
      <span className="command-label">Teach the kiosk your voice</span>{' '}
      <span className="command-phrase">about a minute; kept on this kiosk alone, erased on wish</span>
    </button>
  );
}

function RefusedFiles({ files }: { readonly files: readonly RefusedFile[] }): ReactElement | null {
  if (files.length === 0) return null;
  return (
    <section className="panel panel-refused" aria-labelledby="refused-files">
      <h2 id="refused-files">
        <TagMark /> Files turned away
      </h2>
      <ul>
        {files.map(({ file, line, reason }, index) => (
          <li key={index}>
            <strong className="code">
              {file}
              {line === null ? '' : `, line ${String(line)}`}
            </strong>
            <br />
            {reason}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** To what else the start screen leads. */
function Ways({ acts }: { readonly acts: Acts }): ReactElement {
  return (
    <div className="start-ways">
      <a className="small-button" href={GUIDE}>
        Help
      </a>
      {acts.records === undefined ? null : (
        <button type="button" className="small-button" onClick={() => acts.records?.show()}>
          Records
        </button>
      )}
      {acts.showTags === undefined ? null : (
        <button type="button" className="small-button" onClick={() => acts.showTags?.()}>
          Tags
        </button>
      )}
      <button type="button" className="small-button" onClick={() => acts.showLicences()}>
        Licences
      </button>
    </div>
  );
}

/** One thing to do, and beside it what a person may want to know before. */
function StartScreen({ view, camera, acts, cameraRef }: ScreenProps<'start'>): ReactElement {
  const { start } = view;
  const side = (
    <>
      <SelfCheck checks={start.checks} cameras={start.cameras ?? null} acts={acts} />
      <RefusedFiles files={start.refusedFiles} />
      <Procedures start={start} acts={acts} />
      {start.teachesVoice === true ? <YourVoice acts={acts} /> : null}
    </>
  );
  return (
    <main className="body">
      <Sheet look="start" side={side}>
        {start.notice === null ? null : <NoticePanel notice={{ tone: 'refusal', text: start.notice }} />}
        <h1>
          {start.loft} <span className="h1-aside">{start.table}</span>
        </h1>
        <Said text={start.prompt.show} />
        <CameraPicture
          camera={camera}
          cameraRef={cameraRef}
          caption="Hold the badge inside the frame, or use the hand scanner"
        />
        <div className="start-foot">
          <SafetyNote demonstration={start.demonstration === true} />
          <Ways acts={acts} />
        </div>
      </Sheet>
    </main>
  );
}

export const START: ScreenOf<'start'> = {
  Screen: StartScreen,
  announce: ({ start }) => ({ urgent: start.notice ?? '', calm: start.prompt.show }),
};
