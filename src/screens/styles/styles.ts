/** The style sheets, in the order in which they build on one another. */
import './tokens.css';
import './frame.css';
import './panels.css';
import './start.css';
import './pad.css';
import './pin.css';
import './stage.css';
import './card.css';
import './records.css';
import './enrol.css';
import './narrow.css';
