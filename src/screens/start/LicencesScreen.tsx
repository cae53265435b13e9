/** The licences of everything that the kiosk is built from. */
import type { ReactElement } from 'react';
import { Sheet } from '../parts/Sheet';
import { SILENT, type ScreenOf, type ScreenProps } from '../screen-of';

function LicencesScreen({ view, acts }: ScreenProps<'licences'>): ReactElement {
  return (
    <main className="body">
      <Sheet look="licences">
        <h1>Licences</h1>
        {view.licences.map(({ name, version, licence, text }) => (
          <details key={`${name} ${version}`} className="licence">
            <summary>
              <strong>{name}</strong> {version} <span className="licence-kind">{licence}</span>
            </summary>
            <pre>{text}</pre>
          </details>
        ))}
      </Sheet>
      <section className="commands" aria-label="Commands">
        <div className="commands-main">
          <button type="button" className="command command-main" onClick={() => acts.leave()}>
            <span className="command-label">Back to the start</span>
          </button>
        </div>
      </section>
    </main>
  );
}

export const LICENCES: ScreenOf<'licences'> = { Screen: LicencesScreen, announce: () => SILENT };
