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
# # A jump, before it and in it
#
# A rope swing over the quarry Kestrel Gap: what the loop of rope does at the edge, how the jump goes, what the
# wind does, and what slack lines feel. Place and gear are invented.
#
# Results are calculations, not permission: local codes, manufacturers' instructions and licensed
# practice rule. Inspect, back up, test with a bag first.

# %%
import matplotlib.pyplot as plt
import numpy as np

from tautwork import pictures, swing


def at(x, z, y=0):
    return {"x": f"{x} m", "y": f"{y} m", "z": f"{z} m"}


def line(name, half, density, stretch):
    return {
        "name": name,
        "near": at(0, 0),
        "far": at(130, -3),
        "near_length": f"{half} m",
        "far_length": f"{half} m",
        "linear_density": density,
        "stretch": {"axial_rigidity": stretch},
    }


def rope(name):
    response = {"model": "pair", "stiff": "22 kN", "soft": "9.2 kN", "relaxation": "0.02 s"}
    return {"name": name, "rest_length": "72 m", "linear_density": "66 g/m", "response": response}


jump = {
    "mass": "82 kg",
    "drag_area": "0.55 m²",
    "exit": at(2, -1),
    "exit_speed_x": "1.5 m/s",
    "exit_speed_z": "0.3 m/s",
    "ropes": [rope("left"), rope("right")],
    "lines": [line("main", 63.87, "68 g/m", "250 kN"), line("backup", 66.2, "60 g/m", "140 kN")],
    "ring_mass": "2.5 kg",
    "body_radius": "0.9 m",
    "walls": [{"name": "far wall", "points": [at(122, -70), at(127.5, -30), at(129, -3.6)]}],
    "follow": {"horizon": "30 s"},
}

# %% [markdown]
# ## At the edge
#
# The loop pulls towards the ring. Shoes on dry rock hold far more, shoes on wet moss may not.

# %%
waiting = swing.waiting(jump)
print(f"the loops pull with {waiting.level_pull.show('N', 0)} and hang "
      f"{waiting.ropes[0].below_body.show('m', 1)} below the harness")
for loop in waiting.ropes[:1]:
    plt.plot(loop.x_m, loop.z_m)
plt.xlabel("x along the span, m")
plt.ylabel("z up, m")
plt.gca().set_aspect("equal")
plt.show()
assert waiting.friction_needed.to("1") < 0.3

# %% [markdown]
# ## The jump
#
# A stiff rope for the forces, a soft one for the clearances, and the same jump with every line and rope as a row of
# masses.

# %%
outlook = swing.outlook(jump)
full = swing.fly_full(jump=jump | {"follow": {"horizon": "15 s"}}, mesh={"nodes_per_line": 40})
figure = pictures.plot({"stiff": outlook.stiff, "soft": outlook.soft, "full, stiff": full})
print("force on the body", outlook.body_force.extreme.value.show("kN", 2))
print("lowest point", outlook.lowest.extreme.value.show("m", 1))
for own in full.lines:
    print(f"{own.name}: {own.near.value.show('kN', 2)}, {own.over_quasi_static.to('1'):.1f} times quasi-static")
assert full.lines[1].over_quasi_static.to("1") > 2
assert abs(full.resultant.value.to("kN") / outlook.stiff.resultant.value.to("kN") - 1) < 0.25
figure

# %% [markdown]
# ## Wind
#
# How much wind towards the far wall leaves two metres to it?

# %%
winds = {"most": "15 m/s", "count": 7, "along": 1.0, "left": 0.0, "required": "2 m"}
sweep = swing.wind_sweep(jump=jump, winds=winds)
plt.plot(sweep.wind_m_per_s, sweep.walls[0].clearance_m, "o-")
plt.xlabel("wind along the span, m/s")
plt.ylabel("least distance to the far wall, m")
plt.show()
assert np.all(np.diff(sweep.wind_m_per_s) > 0)
print("largest wind", sweep.walls[0].largest)

# %% [markdown]
# ## A parked haul rope

# %%
parked = {
    "name": "haul rope",
    "radius": "6 mm",
    "points": [{"x_m": [4], "y_m": [3], "z_m": [0]}, {"x_m": [4], "y_m": [3], "z_m": [-60]}],
}
near = swing.apart_in_flight(jump=jump, parked=[parked])
for pair in near.pairs[:3]:
    print(f"{pair.first} to {pair.second}: {pair.least.show('m', 2)} at {pair.time.show('s', 1)}")
assert near.crossings == []

# %% [markdown]
# ## As it happens

# %%
moving = pictures.animate(outlook.stiff, jump=jump, every=20)
page = moving.to_jshtml()
assert "<script" in page
