// One card for each question: the fields are the arguments of the call.
import { make } from "./dom.js";

/** The cards; `tautwork` is the package. */
export function calculators({ anchor, convert, fall, format, line, pulley }) {
  const kn = (force) => format(force, "kN", 2);
  const cards = [
    {
      call: "fall.impact_force",
      title: "How hard does a rope stop a fall?",
      about: "A linear rope, straight below a rigid anchor. For a swing only an upper bound.",
      fields: {
        mass: ["mass", "80 kg"],
        fall_factor: ["fall factor", "1.0"],
        axial_rigidity: ["axial rigidity of the rope", "22 kN"],
      },
      run: (input) => ({ "impact force": kn(fall.impact_force(input)) }),
    },
    {
      call: "fall.implied_axial_rigidity",
      title: "How stiff is a rope of this rating?",
      about: "From the impact force of the standard drop: an effective, stiff figure for that test.",
      fields: {
        mass: ["mass of the test", "80 kg"],
        fall_factor: ["fall factor of the test", "1.77"],
        impact_force: ["rated impact force", "8.6 kN"],
      },
      run: (input) => ({ "axial rigidity": kn(fall.implied_axial_rigidity(input)) }),
    },
    {
      call: "line.solve_elastic",
      title: "How tight and how low does a line hang?",
      about: "An elastic line between two anchors under its own weight.",
      fields: {
        span: ["span", "130 m"],
        rise: ["far anchor above near", "-3 m"],
        rest_length: ["rest length", "127.74 m"],
        weight: ["weight", "0.667 N/m"],
        axial_rigidity: ["axial rigidity", "250 kN"],
      },
      run: ({ axial_rigidity, ...input }) => {
        const state = line.solve_elastic({ ...input, stretch: { axial_rigidity } });
        return {
          "tension, near end": kn(state.tension_near),
          "tension, far end": kn(state.tension_far),
          "sag below the chord": format(state.sag_below_chord, "m", 2),
        };
      },
    },
    {
      call: "anchor.v_angle_factor",
      title: "What does each of two legs carry?",
      about: "Two equal legs, the angle between them, the load along the middle.",
      fields: { v_angle: ["angle between the legs", "90 deg"], load: ["load", "10 kN"] },
      run: ({ load, v_angle }) => {
        const factor = anchor.v_angle_factor({ v_angle });
        const each = factor.value * convert(load, "kN");
        return { "each leg": kn({ value: each, unit: "kN" }) };
      },
    },
    {
      call: "pulley.solve",
      title: "What force raises a load?",
      about: "An ordinary system; every sheave loses the same part. Holding is a range, not a figure.",
      fields: {
        load: ["load", "0.9 kN"],
        system: ["system", pulley.ordinary_systems().map(({ system }) => system), "three_to_one"],
        efficiency: ["efficiency of a sheave", "0.83"],
      },
      run: ({ load, system, efficiency }) => {
        const friction = { law: "fixed", efficiency };
        const answer = pulley.solve({ system: pulley.ordinary({ system, friction }), load });
        return {
          "hand force to raise": kn(answer.raising.hand),
          "to hold, from": kn(answer.hold.low),
          "actual advantage": format(answer.actual_advantage, "1", 2),
        };
      },
      picture: ({ load, system, efficiency }) => {
        const friction = { law: "fixed", efficiency };
        return pulley.diagram({ system: pulley.ordinary({ system, friction }), load, shown: "raising" });
      },
    },
    {
      call: "pulley.capstan_hold",
      title: "What holds a load over a bar?",
      about: "Rope on a surface that does not turn: anything between the two forces holds.",
      fields: { load: ["load", "1 kN"], mu: ["friction", "0.3"], wrap: ["wrap angle", "360 deg"] },
      run: (input) => {
        const hold = pulley.capstan_hold(input);
        return { "least force": kn(hold.low), "greatest force": kn(hold.high) };
      },
    },
  ];
  return cards.map(card);
}

function card({ call, title, about, fields, run, picture }) {
  const output = make("output");
  const form = make(
    "form",
    { onsubmit: (event) => event.preventDefault() },
    make("h3", {}, title),
    make("p", {}, about),
    ...Object.entries(fields).map(([name, [label, ...value]]) =>
      make("label", {}, label, field(name, ...value)),
    ),
    output,
  );
  form.dataset.call = call;
  const compute = () => {
    try {
      const input = Object.fromEntries(new FormData(form));
      const rows = Object.entries(run(input));
      output.replaceChildren(
        ...rows.map(([name, value]) => make("div", {}, make("span", {}, name), make("b", {}, value))),
      );
      if (picture) {
        const src = `data:image/svg+xml,${encodeURIComponent(picture(input))}`;
        output.append(make("img", { alt: "The system with the force in every part", src }));
      }
    } catch (error) {
      output.replaceChildren(make("span", { className: "wrong" }, error.message));
    }
  };
  form.addEventListener("input", compute);
  compute();
  return form;
}

function field(name, value, chosen) {
  if (typeof value === "string") return make("input", { name, value, autocomplete: "off" });
  const options = value.map((text) =>
    make("option", { value: text, selected: text === chosen }, text.replaceAll("_", " ")),
  );
  return make("select", { name }, ...options);
}
