// A worker: plans take seconds, and the page stays alive meanwhile.
import { plan } from "./tautwork/js/web.js";

onmessage = ({ data: text }) => {
  try {
    postMessage({ plan: plan(text) });
  } catch ({ name, message, mistakes }) {
    postMessage({ error: { name, message, mistakes } });
  }
};
postMessage({ ready: true });
