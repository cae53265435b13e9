/** Says what has changed to assistive technology: refusals at once, everything else when it is its turn. */
import type { ReactElement } from 'react';
import type { AppView, ScreenName, ViewOf } from '../contract/app-view';
import type { Announcement } from '../screen-of';
import { SCREENS } from '../screens';

function announce<S extends ScreenName>(screen: S, view: ViewOf<S>): Announcement {
  return SCREENS[screen].announce(view);
}

/** The two live regions. They are in the page from the beginning, as they must be to be noticed. */
export function Announcer({ view }: { readonly view: AppView }): ReactElement {
  const { urgent, calm } = announce(view.screen, view);
  return (
    <div className="unseen">
      <div aria-live="assertive" aria-atomic="true">
        {urgent}
      </div>
      <div aria-live="polite" aria-atomic="true">
        {calm}
      </div>
    </div>
  );
}
