/** A pack in progress: its banner, the screen of what is going on now, and the controls. */
import type { ReactElement } from 'react';
import type { Paper } from '../../domain/log-record';
import type { Acts } from '../contract/acts';
import type { ProofState } from '../contract/proof-view';
import type { StatusBarView } from '../contract/status-bar-view';
import type { Detail, Notice, PackView, ScanWanted } from '../contract/pack-view';
import { BlockedScreen } from './BlockedScreen';
import { CameraPicture, type CameraRef } from '../parts/CameraPicture';
import { CheckInScreen } from './CheckInScreen';
import { CardScreen } from './CardScreen';
import { CloseUpScreen } from './CloseUpScreen';
import { CommandPad } from '../parts/CommandPad';
import { DemonstrationLine } from './DemonstrationLine';
import { HoldScreen } from '../hold/HoldScreen';
import { IdentifyScreen } from './IdentifyScreen';
import { InspectionScreen } from './InspectionScreen';
import { ItemsScreen } from './ItemsScreen';
import { NoticePanel } from '../parts/Notice';
import type { BodyProps } from './pack-body';
import { PAPER_WORDS } from '../record/papers/paper-words';
import { ReadBackScreen } from './ReadBackScreen';
import { RecordScreen } from '../record/RecordScreen';
import { SignScreen } from './SignScreen';
import { StageScreen } from './StageScreen';
import { StandingByScreen } from './StandingByScreen';
import { ProgressBar } from './ProgressBar';
import { StoppedScreen } from './StoppedScreen';
import { StoppingScreen } from './StoppingScreen';
import { useControls } from '../parts/use-controls';
import { ValuePad } from '../parts/ValuePad';

interface PackScreenProps {
  readonly view: PackView;
  /** What proves the record on its card; null where there is none. */
  readonly proof: ProofState | null;
  readonly camera: StatusBarView['camera'];
  readonly acts: Acts;
  readonly cameraRef: CameraRef;
  readonly cameraHint?: string | null;
  /** Why the loft's files of now do not count; null for nothing. */
  readonly filesTrouble?: string | null;
}

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
      {view.demonstration === undefined || view.demonstration === null ? null : (
        <DemonstrationLine text={view.demonstration} />
      )}
      {view.storing ? <p className="banner-flag banner-storing">Storing</p> : null}
      {view.progress === null ? null : <ProgressBar done={view.progress.done} of={view.progress.of} />}
    </header>
  );
}

type AnyBody = BodyProps<Detail['screen']>;

/** Narrowing `detail` narrows nothing else, so each case hands on the whole with its own detail. */
function Body({ detail, ...rest }: AnyBody): ReactElement {
  switch (detail.screen) {
    case 'identify':
      return <IdentifyScreen detail={detail} {...rest} />;
    case 'checkIn':
      return <CheckInScreen detail={detail} {...rest} />;
    case 'inspection':
      return <InspectionScreen detail={detail} {...rest} />;
    case 'blocked':
      return <BlockedScreen detail={detail} {...rest} />;
    case 'stage':
      return <StageScreen detail={detail} {...rest} />;
    case 'hold':
      return <HoldScreen detail={detail} {...rest} />;
    case 'closeUp':
      return <CloseUpScreen detail={detail} {...rest} />;
    case 'items':
      return <ItemsScreen detail={detail} {...rest} />;
    case 'sign':
      return <SignScreen detail={detail} {...rest} />;
    case 'card':
      return <CardScreen detail={detail} {...rest} />;
    case 'record':
      return <RecordScreen detail={detail} {...rest} />;
    case 'standingBy':
      return <StandingByScreen detail={detail} {...rest} />;
    case 'stopping':
      return <StoppingScreen detail={detail} {...rest} />;
    case 'stopped':
      return <StoppedScreen detail={detail} {...rest} />;
  }
}

/** The papers that can be printed now, the one that is wanted first. */
function papersOf({ detail }: PackView): readonly Paper[] {
  if (detail.screen === 'card') return ['dataCard'];
  return detail.screen === 'record' ? ['logBookPage', 'dataCard'] : [];
}

/** While a fact is on its way to storage nothing more can be told. */
const NO_COMMANDS: Pick<Acts, 'command'> = { command: () => undefined };

/** Printing the card, and what can be done with a pack that has ended. */
function EndControls({ view, proof, acts }: Pick<PackScreenProps, 'view' | 'proof' | 'acts'>): ReactElement | null {
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
function ToRecords({ acts }: Pick<PackScreenProps, 'acts'>): ReactElement {
  return (
    <button type="button" className="command command-other" onClick={() => acts.records?.show()}>
      <span className="command-label">Records</span>
    </button>
  );
}

export function PackScreen(props: PackScreenProps): ReactElement {
  const { view, proof, camera, acts, cameraRef, cameraHint = null, filesTrouble = null } = props;
  const controls = useControls(view.legal, view.prompt.key, view.storing ? NO_COMMANDS : acts);
  const { detail, prompt, readBack, scan } = view;
  const shown: readonly Notice[] = [
    ...(filesTrouble === null ? [] : [{ tone: 'warning' as const, text: filesTrouble }]),
    ...(view.notice === null ? [] : [view.notice]),
  ];
  const notice = shown.map((one) => <NoticePanel key={one.text} notice={one} />);
  const pad = controls.open === null ? null : <ValuePad legal={controls.open} controls={controls} />;
  const picture =
    scan === null ? null : (
      <CameraPicture camera={camera} cameraRef={cameraRef} caption={CAPTIONS[scan]} hint={cameraHint} />
    );
  const body = { detail, prompt, view, proof, controls, notice, pad, camera: picture };
  return (
    <>
      <Banner view={view} />
      <main className="body">
        {readBack === null ? <Body {...body} /> : <ReadBackScreen {...body} readBack={readBack} />}
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
