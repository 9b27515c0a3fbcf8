import { fall, format } from "./tautwork/js/web.js";

const form = document.querySelector("form");

function compute() {
  let force = "";
  let wrong = "";
  try {
    force = format(fall.impact_force(Object.fromEntries(new FormData(form))), "kN", 2);
  } catch (error) {
    wrong = error.message;
  }
  document.querySelector("#impact_force").textContent = force;
  document.querySelector("#fall-error").textContent = wrong;
}

form.addEventListener("input", compute);
compute();
document.body.dataset.ready = "";
