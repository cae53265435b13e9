/** Holds the last view while a fact is being stored: nothing has changed until then, and no command is taken. */
import { useState } from 'react';
import type { AppView } from '../contract/app-view';

/** `view`, or the last one before storing began, marked as storing. */
export function useSettled(view: AppView): AppView {
  const [settled, setSettled] = useState(view);
  const storing = view.screen === 'pack' && view.view.storing;
  if (settled !== view && !storing) setSettled(view);
  if (!storing || settled.screen !== 'pack' || settled.view.pack !== view.view.pack) return view;
  return settled === view ? view : { screen: 'pack', view: { ...settled.view, storing: true } };
}
