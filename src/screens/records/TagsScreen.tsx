/** Open tags: what is not for use and why, and taking one off: what was found and done, by whose badge. */
import type { ReactElement } from 'react';
import type { TagLine, TagsView } from '../contract/tags-view';
import { CameraPicture } from '../parts/CameraPicture';
import { CommandPad } from '../parts/CommandPad';
import { NoticePanel } from '../parts/Notice';
import { Said, Sheet } from '../parts/Sheet';
import { TagMark } from '../parts/Shapes';
import { announcePin, announcePrompt, type ScreenOf, type ScreenProps } from '../screen-of';
import { useControls } from '../parts/use-controls';
import { ValuePad } from '../parts/ValuePad';

function Tag({ tag }: { readonly tag: TagLine }): ReactElement {
  const { component, serial, cause, reason, on, by } = tag;
  return (
    <>
      <strong>
        {component}, serial <span className="code">{serial}</span>
      </strong>
      <br />
      Tagged on {on} by {by}. Cause: {cause}.
      <br />
      <span className="aside">{reason}</span>
    </>
  );
}

function Matter({ tags }: { readonly tags: TagsView }): ReactElement {
  if (tags.chosen === null) {
    return (
      <ol className="tag-list" aria-label="Open tags">
        {tags.tags.map((tag) => (
          <li key={tag.number} value={tag.number}>
            <Tag tag={tag} />
          </li>
        ))}
      </ol>
    );
  }
  return (
    <section className="tag-one" aria-label="The tag">
      <p>
        <Tag tag={tags.chosen} />
      </p>
      {tags.outcome === null ? null : <p>{tags.outcome}</p>}
    </section>
  );
}

function TagsScreen({ view, camera, acts, cameraRef, cameraHint }: ScreenProps<'tags'>): ReactElement {
  const { tags } = view;
  const controls = useControls(tags.legal, tags.prompt.key, acts);
  const caption = 'Inspector: hold your badge inside the frame, or use the hand scanner';
  const picture = <CameraPicture camera={camera} cameraRef={cameraRef} caption={caption} hint={cameraHint} />;
  const { open } = controls;
  return (
    <>
      <header className="banner">
        <p className="banner-what">
          <strong>Tags</strong>
        </p>
        <p className="banner-flag">Not for use until taken off</p>
      </header>
      <main className="body">
        <Sheet look="tags" side={tags.step === 'badge' ? picture : null}>
          {tags.notice === null ? null : <NoticePanel notice={tags.notice} />}
          <h1>
            <TagMark /> {tags.chosen === null ? 'Open tags' : 'Take a tag off'}
          </h1>
          <Said text={tags.prompt.show} />
          <Matter tags={tags} />
          {open === null ? null : <ValuePad legal={open} controls={controls} />}
        </Sheet>
        <CommandPad controls={controls} />
      </main>
    </>
  );
}

export const TAGS: ScreenOf<'tags'> = {
  Screen: TagsScreen,
  announce: ({ tags, pin = null }) => (pin === null ? announcePrompt(tags.prompt, tags.notice) : announcePin(pin)),
};
