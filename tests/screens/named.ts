/** Fixtures by name, and what a person can read on their screens. */
import type { AppView } from '../../src/screens/contract/app-view';
import type { PackView } from '../../src/screens/contract/pack-view';
import { draw, readable } from './drawn';
import { fixturesAt } from './fixtures';

const FIXTURES = fixturesAt(Date.parse('2026-11-25T13:00:00Z'));

export function fixture(name: string): AppView {
  const view = FIXTURES[name];
  if (view === undefined) throw new Error(`no fixture ${name}`);
  return view;
}

/** A fixture of a pack with something changed. */
export function changed(name: string, change: (view: PackView) => PackView): AppView {
  const view = fixture(name);
  if (view.screen !== 'pack') throw new Error(`${name} is no pack`);
  return { screen: 'pack', view: change(view.view) };
}

export const read = (name: string): string => readable(draw(fixture(name)));
