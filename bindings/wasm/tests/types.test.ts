// Compiled by tsc, never run: the types accept what the calls accept, and no more.
import { convert, fall, InvalidInput, type Quantity } from "tautwork";

const drop = { fall_factor: 1.77, axial_rigidity: "24.07 kN" };
const force: Quantity = fall.impact_force({ mass: { value: 80, unit: "kg" }, ...drop });
const number: number = convert(force, "kN");
const name: string = new InvalidInput("").parameter;
// @ts-expect-error a bare number is not a mass
fall.impact_force({ mass: number, ...drop });
// @ts-expect-error the mass is missing
fall.impact_force(drop);
// @ts-expect-error there is no such argument
fall.fall_factor({ height: "4 m", rope: "2 m", name });
