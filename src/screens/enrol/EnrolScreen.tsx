/** The kiosk learns a voice: badge, what is kept and where, one line after the other, and what came of it. */
import type { ReactElement } from 'react';
import type { EnrolOutcome, EnrolStep, EnrolView } from '../contract/enrol-view';
import { CameraPicture } from '../parts/CameraPicture';
import { CommandPad } from '../parts/CommandPad';
import { NoticePanel } from '../parts/Notice';
import { EarClosedMark, EarOpenMark, PassMark } from '../parts/Shapes';
import { Said, Sheet } from '../parts/Sheet';
import { announcePrompt, type ScreenOf, type ScreenProps, type Surroundings } from '../screen-of';
import { useControls } from '../parts/use-controls';

type At<K extends EnrolStep['at']> = Extract<EnrolStep, { at: K }>;

const TITLE = 'Teach the kiosk your voice';
const OUTCOMES: Readonly<Record<EnrolOutcome, string>> = {
  kept: 'Your voice is kept',
  erased: 'Your voice is erased',
  nothing: 'Nothing was kept',
};

function About({ about }: Pick<At<'ready'>, 'about'>): ReactElement {
  return (
    <dl className="enrol-about">
      {about.map(({ name, text }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  );
}

type Ear = Pick<Surroundings, 'ear'>;

/** Whether the ear is open for the line now: what is said before is lost. */
function Cue({ ear }: Ear): ReactElement {
  const isOpen = ear === 'listening';
  return (
    <p className={`enrol-cue ${isOpen ? 'enrol-cue-open' : ''}`.trim()}>
      {isOpen ? <EarOpenMark /> : <EarClosedMark />} {isOpen ? 'Say it now' : 'Wait'}
    </p>
  );
}

interface MatterProps extends Ear {
  readonly enrol: EnrolView;
}

interface LineProps extends MatterProps {
  readonly step: At<'reading'>;
}

function Line({ step, enrol, ear }: LineProps): ReactElement {
  const { words, number, of } = step;
  return (
    <>
      <p className="eyebrow">
        <span>
          Line <span className="bight-number">{number}</span> of {of}
        </span>
      </p>
      <h1 className="enrol-line">{words}</h1>
      <Cue ear={ear} />
      <Said text={enrol.prompt.show} size={enrol.prompt.say === '' ? 'quiet' : 'beside'} />
    </>
  );
}

function Matter({ enrol, ear }: MatterProps): ReactElement {
  const { step, prompt } = enrol;
  if (step.at === 'reading') return <Line step={step} enrol={enrol} ear={ear} />;
  if (step.at === 'done') {
    return (
      <>
        <h1>
          {step.outcome === 'nothing' ? null : <PassMark />} {OUTCOMES[step.outcome]}
        </h1>
        <Said text={prompt.show} />
      </>
    );
  }
  return (
    <>
      <h1>{TITLE}</h1>
      <Said text={prompt.show} />
      {step.at === 'ready' ? <About about={step.about} /> : null}
    </>
  );
}

/** What is said on this screen is never a command, so touch, keys and cards are all there is to steer by. */
function EnrolScreen({ view, ear, camera, acts, cameraRef, cameraHint }: ScreenProps<'enrol'>): ReactElement {
  const { enrol } = view;
  const controls = useControls(enrol.legal, enrol.prompt.key, acts);
  const caption = 'Hold your badge inside the frame, or use the hand scanner';
  const picture = <CameraPicture camera={camera} cameraRef={cameraRef} caption={caption} hint={cameraHint} />;
  return (
    <>
      <header className="banner">
        <p className="banner-what">
          <strong>Your voice</strong>
        </p>
        <p className="banner-flag">It stays on this kiosk</p>
        {enrol.person === null ? null : <p className="banner-who">{enrol.person}</p>}
      </header>
      <main className="body">
        <Sheet look="enrol" side={enrol.step.at === 'badge' ? picture : null}>
          {enrol.notice === null ? null : <NoticePanel notice={enrol.notice} />}
          <Matter enrol={enrol} ear={ear} />
        </Sheet>
        <CommandPad controls={controls} />
      </main>
    </>
  );
}

export const ENROL: ScreenOf<'enrol'> = {
  Screen: EnrolScreen,
  announce: ({ enrol }) => announcePrompt(enrol.prompt, enrol.notice),
};
