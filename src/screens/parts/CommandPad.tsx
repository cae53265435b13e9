/** A touch control for each command that may be said now: what it does, what to say instead, and its key. */
import type { ReactElement, ReactNode } from 'react';
import type { CommandName } from '../../domain/command';
import type { LegalCommand } from '../contract/pack-view';
import { keyLabel, keyShortcut } from './keys';
import { isList, type Controls } from './use-controls';

interface CommandButtonProps {
  readonly legal: LegalCommand;
  readonly controls: Controls;
}

/** One control. A command that needs a value opens its pad. */
export function CommandButton({ legal, controls }: CommandButtonProps): ReactElement {
  const opens = legal.input.kind !== 'press';
  const open = controls.open?.name === legal.name;
  return (
    <button
      type="button"
      className={`command ${legal.main ? 'command-main' : 'command-other'}`}
      data-command={legal.name}
      aria-keyshortcuts={keyShortcut(legal.name)}
      {...(opens ? { 'aria-expanded': open } : {})}
      onClick={() => controls.press(legal, 'touch')}
    >
      <span className="command-label">{legal.label}</span>{' '}
      {legal.phrase === '' ? null : <span className="command-phrase">say: {legal.phrase}</span>}{' '}
      <kbd>{keyLabel(legal.name)}</kbd>
    </button>
  );
}

interface CommandPadProps {
  readonly controls: Controls;
  /** Commands that are drawn elsewhere on the screen. */
  readonly except?: readonly CommandName[];
  /** Controls that are no commands, before the others; null for none. */
  readonly first?: ReactNode;
  /** A control that is no command, behind the others; null for none. */
  readonly last?: ReactNode;
}

/** The row of controls at the foot of a screen: the expected ones large, the others beside them. */
export function CommandPad({ controls, except = [], first = null, last = null }: CommandPadProps): ReactElement | null {
  // A list that is open of itself has its options as controls.
  const listed = controls.open !== null && isList(controls.open) ? controls.open.name : null;
  const legal = controls.legal.filter(({ name }) => !except.includes(name) && name !== listed);
  if (legal.length === 0 && first === null && last === null) return null;
  const main = legal.filter((each) => each.main);
  const others = legal.filter((each) => !each.main);
  return (
    <section className="commands" aria-label="Commands">
      {main.length === 0 && first === null ? null : (
        <div className="commands-main">
          {first}
          {main.map((each) => (
            <CommandButton key={each.name} legal={each} controls={controls} />
          ))}
        </div>
      )}
      {others.length === 0 && last === null ? null : (
        <div className="commands-others">
          {others.map((each) => (
            <CommandButton key={each.name} legal={each} controls={controls} />
          ))}
          {last}
        </div>
      )}
    </section>
  );
}
