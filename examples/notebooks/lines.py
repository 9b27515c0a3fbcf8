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
# # A line over Kestrel Gap
#
# One webbing of 130 m with a person on it, then the same as the main of four lines tied to one ring.
# Place and gear are invented.
#
# Results are calculations, not permission: local codes, manufacturers' instructions and licensed
# practice rule. Inspect, back up, test with a bag first.

# %%
import matplotlib.pyplot as plt
import numpy as np

from tautwork import line

webbing = {
    "rest_length": "127.74 m",
    "weight": "0.667 N/m",
    "stretch": {"axial_rigidity": "250 kN"},
}
walk = {
    "near": ["0 m", "0 m", "0 m"],
    "far": ["130 m", "0 m", "-3 m"],
    "pieces": [webbing],
    "weight": "804 N",
}

# %% [markdown]
# ## Where the walker goes
#
# The path of the feet, and what the near anchor takes on the way. Beside an anchor the line is steepest:
# that is where one has to stand up.

# %%
path = line.walk_envelope(walk=walk, mode="stands", count=99)
figure, (below, above) = plt.subplots(2, 1, sharex=True)
below.plot(path.x_m, path.z_m)
below.set_ylabel("height of the feet, m")
above.plot(path.x_m, path.tension_near_n / 1e3)
above.set_ylabel("near anchor, kN")
above.set_xlabel("along the span, m")
plt.show()

steepest = np.degrees(path.rise_before_rad[0])
deepest = path.below_chord_m.max()
assert steepest > np.degrees(path.rise_before_rad[49])
print(f"{deepest:.2f} m below the chord, {steepest:.1f} degrees beside the anchor")

# %% [markdown]
# A pulley runs to where the line is level under it; with friction, to the edge of a range.

# %%
for friction in (0.0, 0.05, 0.1):
    rest = line.roll_rests(walk=walk, friction=friction)[0]
    print(friction, rest["from"].position[0].show("m", 1), rest.to.position[0].show("m", 1))

# %% [markdown]
# ## Four lines, one ring
#
# Looser backups begin to carry one after the other.


# %%
def tied(name, rest_m, weight_n_per_m, rigidity):
    return {
        "name": name,
        "near": walk["near"],
        "far": walk["far"],
        "near_length": f"{rest_m / 2} m",
        "far_length": f"{rest_m / 2} m",
        "weight": f"{weight_n_per_m} N/m",
        "stretch": {"axial_rigidity": rigidity},
    }


lines = [
    tied("main", 127.74, 0.667, "250 kN"),
    tied("backup", 132.4, 0.589, "140 kN"),
    tied("rope 1", 133.2, 0.706, "30 kN"),
    tied("rope 2", 133.8, 0.706, "30 kN"),
]
loads = -np.linspace(50, 8000, 80)
swept = line.sweep_bundle_batch(lines=lines, load_x_n=0, load_y_n=0, load_z_n=loads)
for each in swept.lines:
    plt.plot(-loads / 1e3, each.tension_near_n / 1e3, label=each.name)
for begins in line.bundle_engagement(lines=lines, up_to="8 kN"):
    if begins.load is not None:
        plt.axvline(begins.load.to("kN"), linewidth=0.5, color="grey")
plt.xlabel("load on the ring, kN")
plt.ylabel("near anchor, kN")
plt.legend()
plt.show()

# Common practice, no source: a tight main with looser backups carries over nine tenths of the catch.
at_4_kn = np.argmin(np.abs(loads + 4000))
assert swept.lines[0].share[at_4_kn] > 0.9

# %% [markdown]
# Half a metre of error in the length is most of a kilonewton. Plan from tension, not from cut length.

# %%
rest_m = np.linspace(127.0, 129.0, 201)
many = line.solve_elastic(
    span_m=130.0,
    rise_m=-3.0,
    rest_length_m=rest_m,
    weight_n_per_m=0.667,
    axial_rigidity_n=250e3,
)
plt.plot(rest_m, many.tension_near_n / 1e3)
plt.xlabel("rest length, m")
plt.ylabel("standing tension, kN")
plt.show()

# %% [markdown]
# ## How far off are the rules?

# %%
alone = {"span": "130 m", "rise": "-3 m"} | webbing
for rule in line.rules_of_thumb(line=alone, load="804 N"):
    print(f"{rule.formula:40}{rule.error.show('%', 1):>10}  {rule.source}")
