/** Entry of pane.js: the pane in a browser beside the program. */
import { mountPane } from '../../pane/mount.tsx';
import { loopbackPort } from './loopback-port.ts';

const pane = document.getElementById('pane');
const lost = document.getElementById('lost');
if (pane)
  mountPane(
    pane,
    loopbackPort((heard) => {
      if (lost) lost.hidden = heard;
    }),
  );
