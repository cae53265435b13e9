/** The style sheets, in the order in which they build on one another. */
import './tokens.css';
import './frame.css';
import './status-bar.css';
import './panels.css';
import './start.css';
import './controls.css';
import './pad.css';
import './pin.css';
import './stage.css';
import './hold.css';
import './card.css';
import './records.css';
import './enrol.css';
import './narrow.css';
