/** One stage of the pack: what to do, its steps, and the ledger or band that goes with it. */
import type { ReactElement } from 'react';
import { MeasureBand } from './MeasureBand';
import type { BodyProps, DetailOf } from './pack-body';
import { TagMark, TrayMark } from '../parts/Shapes';
import { askedOf } from '../parts/asked';
import { Said, Sheet } from '../parts/Sheet';
import { Caution, StageTitle, Steps } from './StageParts';
import { StowLedger } from './StowLedger';

const KIND_WORDS: Readonly<Record<DetailOf<'stage'>['kind'], string>> = {
  confirm: 'Do, then confirm',
  count: 'Count',
  stow: 'Stow',
  measure: 'Measure',
  place: 'Put in',
  remove: 'Take out',
  restore: 'Put back',
};

function Item({ item }: { readonly item: NonNullable<DetailOf<'stage'>['item']> }): ReactElement {
  return (
    <section className="ledger item" aria-label="Temporary item">
      <TrayMark direction={item.direction} />
      <p className="item-direction">{item.direction === 'in' ? 'Goes in' : 'Comes out'}</p>
      <p className="item-name">{item.name}</p>
      <p className="ledger-how">
        {item.direction === 'in' ? 'Temporary: it must come out again.' : 'Show it, then lay it with the tools.'}
      </p>
    </section>
  );
}

function Counted({ count }: { readonly count: NonNullable<DetailOf<'stage'>['count']> }): ReactElement {
  const { noun, expected, counted } = count;
  return (
    <section className="ledger ledger-short" aria-label="Count">
      <p className="measure-what">
        {expected === null ? `Count the ${noun} first: what is expected is shown afterwards.` : 'Should be'}
      </p>
      {expected === null ? null : (
        <p className="ledger-count">
          <strong>{expected}</strong> {noun}
        </p>
      )}
      {counted === null ? null : (
        <p className="measure-outside">
          <TagMark /> <span>{counted} counted</span>
        </p>
      )}
    </section>
  );
}

function SidePart({ detail }: { readonly detail: DetailOf<'stage'> }): ReactElement | null {
  if (detail.stow !== null) return <StowLedger ledger={detail.stow} />;
  if (detail.measure !== null) return <MeasureBand measure={detail.measure} />;
  if (detail.item !== null) return <Item item={detail.item} />;
  if (detail.count !== null) return <Counted count={detail.count} />;
  return null;
}

/** What is said beyond title, steps and caution is what is asked for now, so it stands out. */
function StageMatter({ detail, prompt }: Pick<BodyProps<'stage'>, 'detail' | 'prompt'>): ReactElement {
  const { steps, caution } = detail;
  const asked = askedOf(prompt);
  return (
    <>
      <Steps steps={steps} />
      {caution === null ? null : <Caution text={caution} />}
      {asked === '' ? null : <Said text={asked} size={steps.length === 0 ? 'full' : 'beside'} />}
    </>
  );
}

export function StageScreen({ detail, prompt, notice, pad, camera }: BodyProps<'stage'>): ReactElement {
  const hasPart = (detail.stow ?? detail.measure ?? detail.item ?? detail.count) !== null;
  const own =
    hasPart || camera !== null ? (
      <>
        <SidePart detail={detail} />
        {camera}
      </>
    ) : null;
  return (
    <Sheet look="stage" side={pad ?? own}>
      {notice}
      <StageTitle
        number={detail.number}
        of={detail.of}
        word={KIND_WORDS[detail.kind]}
        title={detail.title}
        itemsIn={detail.itemsIn}
      />
      <StageMatter detail={detail} prompt={prompt} />
    </Sheet>
  );
}
