# ---
# jupyter:
#   jupytext:
#     text_representation:
#       extension: .py
#       format_name: percent
#   kernelspec:
#     display_name: Python 3
#     language: python
#     name: python3
# ---

# %% [markdown]
# # How hard does a rope stop a fall?
#
# A rope's leaflet gives its impact force in the standard drop of EN 892: 80 kg at a fall factor of
# about 1.77 (values from memory). From it follows an axial rigidity, and from that the force of any
# other fall on a linear rope.
#
# Results are calculations, not permission: local codes, manufacturers' instructions and licensed
# practice rule. Inspect, back up, test with a bag first.

# %%
import matplotlib.pyplot as plt
import numpy as np
from scipy.integrate import solve_ivp

from tautwork import fall

# %%
rigidity = fall.implied_axial_rigidity(mass="80 kg", fall_factor=1.77, impact_force="8.6 kN")
rigidity.show("kN", 1)

# %% [markdown]
# The force does not depend on the length of a fall, only on its factor. Without any fall the rope
# still sees twice the weight.

# %%
factors = np.linspace(0, 2, 41)
masses = ["60 kg", "80 kg", "100 kg"]
forces = {
    mass: [
        fall.impact_force(mass=mass, fall_factor=f, axial_rigidity=rigidity).to("kN")
        for f in factors
    ]
    for mass in masses
}
for mass in masses:
    plt.plot(factors, forces[mass], label=mass)
plt.xlabel("fall factor")
plt.ylabel("impact force, kN")
plt.legend()
plt.show()

# %% [markdown]
# The same from the equation of motion, by SciPy: a mass on a linear rope of 2 m that falls 2 m
# before the rope takes load.

# %%
mass_kg, rope_m, height_m, g = 80.0, 2.0, 2.0, 9.81
ea_n = rigidity.to("N")


def motion(_t, y):
    tension_n = max(ea_n * y[0] / rope_m, 0.0)
    return [y[1], g - tension_n / mass_kg]


path = solve_ivp(motion, [0, 1], [0, np.sqrt(2 * g * height_m)], rtol=1e-10, max_step=1e-3)
integrated_kn = ea_n * path.y[0].max() / rope_m / 1e3
closed_kn = fall.impact_force(
    mass="80 kg", fall_factor=height_m / rope_m, axial_rigidity=rigidity
).to("kN")
assert abs(integrated_kn / closed_kn - 1) < 1e-4
integrated_kn, closed_kn

# %% [markdown]
# A wrong unit is an error that says what would be right.

# %%
try:
    fall.impact_force(mass="80 kN", fall_factor=1, axial_rigidity=rigidity)
except ValueError as error:
    print(error)
