/** A trainee hears a procedure stage by stage; nothing is recorded, and the screen says so. */
import type { ReactElement } from 'react';
import type { Acts } from '../packing/app-view';
import type { RehearsalView } from '../packing/view';
import { CommandPad } from './CommandPad';
import { NoticePanel } from './Notice';
import { GateMark } from './Shapes';
import { Said, Sheet } from './Sheet';
import { Caution, StageTitle, Steps } from './StageParts';
import { Stitches } from './Stitches';
import { useControls } from './use-controls';
import { ValuePad } from './ValuePad';

interface RehearsalScreenProps {
  readonly view: RehearsalView;
  readonly acts: Acts;
}

export function RehearsalScreen({ view, acts }: RehearsalScreenProps): ReactElement {
  const controls = useControls(view.legal, view.prompt.key, acts);
  const pad = controls.open === null ? null : <ValuePad legal={controls.open} controls={controls} />;
  return (
    <>
      <header className="banner">
        <p className="banner-what">
          <strong>{view.procedure}</strong> revision {view.revision}
        </p>
        <p className="banner-flag">Rehearsal: nothing is recorded</p>
        <p className="banner-who">Voice speed {view.rate.toFixed(2)}</p>
        <Stitches done={view.number - 1} of={view.of} />
      </header>
      <main className="body">
        <Sheet look="rehearsal" side={pad}>
          {view.notice === null ? null : <NoticePanel notice={view.notice} />}
          <StageTitle number={view.number} of={view.of} word="Hear" title={view.title} />
          <Steps steps={view.steps} />
          {view.caution === null ? null : <Caution text={view.caution} />}
          {view.hold === null ? null : (
            <p className="hold-next">
              <GateMark /> Then a hold: {view.hold}
            </p>
          )}
          {view.prompt.show === view.title ? null : (
            <Said text={view.prompt.show} quiet={view.prompt.show.includes(view.title)} />
          )}
        </Sheet>
        <CommandPad controls={controls} />
      </main>
    </>
  );
}
