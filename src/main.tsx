/** Starts the kiosk. */
import { composeKiosk } from './kiosk/compose';

composeKiosk(document);
