/** A pack in progress: its banner, the screen of what is going on now, and the controls. */
import type { ReactElement } from 'react';
import type { Paper } from '../../domain/log-record';
import type { Acts } from '../contract/acts';
import type { ProofState } from '../contract/proof-view';
import type { Notice, PackView, ScanWanted } from '../contract/pack-view';
import { CameraPicture } from '../parts/CameraPicture';
import { CommandPad } from '../parts/CommandPad';
import { DemonstrationLine } from './DemonstrationLine';
import { NoticePanel } from '../parts/Notice';
import { BODIES } from './bodies';
import type { BodyName, BodyProps, BodySurroundings, DetailOf } from './pack-body';
import { PAPER_WORDS } from '../record/papers/paper-words';
import { ReadBackScreen } from './ReadBackScreen';
import { ProgressBar } from './ProgressBar';
import { announcePin, announcePrompt, type ScreenOf, type ScreenProps } from '../screen-of';
import { useControls } from '../parts/use-controls';
import { ValuePad } from '../parts/ValuePad';

const CAPTIONS: Readonly<Record<NonNullable<ScanWanted>, string>> = {
  component: 'Hold a component label inside the frame',
  inspector: 'Inspector: hold your badge inside the frame',
  signature: 'Rigger: hold your badge inside the frame to sign',
  handover: 'Taking over: hold your badge inside the frame',
};

function Banner({ view }: { readonly view: PackView }): ReactElement {
  return (
    <header className="banner">
      <p className="banner-what">
        <strong>{view.assembly ?? 'No assembly yet'}</strong>
      </p>
      <p className="banner-who">Packer {view.packer}</p>
      {view.demonstration === null ? null : <DemonstrationLine text={view.demonstration} />}
      {view.storing ? <p className="banner-flag banner-storing">Storing</p> : null}
      {view.progress === null ? null : <ProgressBar done={view.progress.done} of={view.progress.of} />}
    </header>
  );
}

/** Generic, so that the detail and the screen of one name belong together. */
function drawBody<S extends BodyName>(screen: S, detail: DetailOf<S>, rest: BodySurroundings): ReactElement {
  const Body: (props: BodyProps<S>) => ReactElement = BODIES[screen];
  return <Body detail={detail} {...rest} />;
}

/** The papers that can be printed now, the one that is wanted first. */
function papersOf({ detail }: PackView): readonly Paper[] {
  if (detail.screen === 'card') return ['dataCard'];
  return detail.screen === 'record' ? ['logBookPage', 'dataCard'] : [];
}

/** While a fact is on its way to storage nothing more can be told. */
const NO_COMMANDS: Pick<Acts, 'command'> = { command: () => undefined };

interface EndControlsProps {
  readonly view: PackView;
  /** What proves the record on its card; null where there is none. */
  readonly proof: ProofState | null;
  readonly acts: Acts;
}

/** Printing the card, and what can be done with a pack that has ended. */
function EndControls({ view, proof, acts }: EndControlsProps): ReactElement | null {
  // A card printed now would lack its code.
  const waits = proof?.state === 'making';
  return (
    <>
      {papersOf(view).map((paper, index) => (
        <button
          key={paper}
          type="button"
          className={index === 0 ? 'command command-main' : 'command command-tall'}
          disabled={waits}
          onClick={() => acts.print(paper)}
        >
          <span className="command-label">{waits ? 'The code is being made' : `Print the ${PAPER_WORDS[paper]}`}</span>
        </button>
      ))}
      {view.ended ? (
        <button type="button" className="command command-tall" onClick={() => acts.leave()}>
          <span className="command-label">Back to the start</span>
        </button>
      ) : null}
    </>
  );
}

/** In the same row as the commands: a row of its own would take the place of what is to be read. */
function ToRecords({ acts }: { readonly acts: Acts }): ReactElement {
  return (
    <button type="button" className="command command-other" onClick={() => acts.records?.show()}>
      <span className="command-label">Records</span>
    </button>
  );
}

function PackScreen({ view: shown, camera, acts, cameraRef, cameraHint }: ScreenProps<'pack'>): ReactElement {
  const { view, proof = null, filesTrouble = null } = shown;
  const controls = useControls(view.legal, view.prompt.key, view.storing ? NO_COMMANDS : acts);
  const { detail, prompt, readBack, scan } = view;
  const notices: readonly Notice[] = [
    ...(filesTrouble === null ? [] : [{ tone: 'warning' as const, text: filesTrouble }]),
    ...(view.notice === null ? [] : [view.notice]),
  ];
  const notice = notices.map((one) => <NoticePanel key={one.text} notice={one} />);
  const pad = controls.open === null ? null : <ValuePad legal={controls.open} controls={controls} />;
  const picture =
    scan === null ? null : (
      <CameraPicture camera={camera} cameraRef={cameraRef} caption={CAPTIONS[scan]} hint={cameraHint} />
    );
  const body = { prompt, view, proof, controls, notice, pad, camera: picture };
  return (
    <>
      <Banner view={view} />
      <main className="body">
        {readBack === null ? drawBody(detail.screen, detail, body) : <ReadBackScreen {...body} readBack={readBack} />}
        <CommandPad
          controls={controls}
          except={readBack === null ? [] : ['affirm', 'negative']}
          first={view.ended || papersOf(view).length > 0 ? <EndControls view={view} proof={proof} acts={acts} /> : null}
          last={acts.records === undefined ? null : <ToRecords acts={acts} />}
        />
      </main>
    </>
  );
}

export const PACK: ScreenOf<'pack'> = {
  Screen: PackScreen,
  announce: ({ view, pin = null }) =>
    pin === null ? announcePrompt(view.prompt, view.notice, view.readBack?.show) : announcePin(pin),
};
