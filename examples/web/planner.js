// A worker: plans take seconds, and the page stays alive meanwhile.
import { plan, rig } from "./tautwork/js/web.js";

onmessage = ({ data: text }) => {
  try {
    const solved = plan(text);
    const { rig: name, note, verdict, cautions, tables, pictures, notes } = solved;
    const shown = { rig: name, note, verdict, cautions, tables, pictures, notes };
    const report = rig.report_text({ plan: shown, format: "html" });
    postMessage({ plan: solved, report });
  } catch ({ name, message, mistakes }) {
    postMessage({ error: { name, message, mistakes } });
  }
};
postMessage({ ready: true });
