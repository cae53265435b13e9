/** A trainee hears a procedure stage by stage; nothing is recorded, and the screen says so. */
import type { ReactElement } from 'react';
import type { RehearsalView } from '../contract/pack-view';
import { CommandPad } from '../parts/CommandPad';
import { DemonstrationLine } from '../pack/DemonstrationLine';
import { askedOf } from '../parts/asked';
import { NoticePanel } from '../parts/Notice';
import { GateMark } from '../parts/Shapes';
import { Said, Sheet } from '../parts/Sheet';
import { Caution, StageTitle, Steps } from '../pack/StageParts';
import { useControls } from '../parts/use-controls';
import { announcePrompt, type ScreenOf, type ScreenProps } from '../screen-of';
import { ValuePad } from '../parts/ValuePad';

function RehearsalMatter({ view }: { readonly view: RehearsalView }): ReactElement {
  const asked = askedOf(view.prompt);
  return (
    <>
      <Steps steps={view.steps} />
      {view.caution === null ? null : <Caution text={view.caution} />}
      {view.hold === null ? null : (
        <p className="hold-next">
          <GateMark /> {view.hold}
        </p>
      )}
      {asked === '' ? null : <Said text={asked} size="beside" />}
    </>
  );
}

function RehearsalScreen({ view: { view }, acts }: ScreenProps<'rehearsal'>): ReactElement {
  const controls = useControls(view.legal, view.prompt.key, acts);
  return (
    <>
      <header className="banner">
        <p className="banner-what">
          <strong>{view.procedure}</strong> revision {view.revision}
        </p>
        <p className="banner-flag">Rehearsal: nothing is recorded</p>
        {view.demonstration === null ? null : <DemonstrationLine text={view.demonstration} />}
        <p className="banner-who">Voice speed {view.rate.toFixed(2)}</p>
      </header>
      <main className="body">
        <Sheet look="rehearsal">
          {view.notice === null ? null : <NoticePanel notice={view.notice} />}
          <StageTitle number={view.number} of={view.of} word="Hear" title={view.title} />
          {controls.open === null ? (
            <RehearsalMatter view={view} />
          ) : (
            <ValuePad legal={controls.open} controls={controls} />
          )}
        </Sheet>
        <CommandPad controls={controls} />
      </main>
    </>
  );
}

export const REHEARSAL: ScreenOf<'rehearsal'> = {
  Screen: RehearsalScreen,
  announce: ({ view }) => announcePrompt(view.prompt, view.notice),
};
