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
# # What a catch feels like
#
# A peak force says little about a catch: how long does it last, what takes it up, and what does the next
# fall on the same rope do? Place and gear are invented.
#
# Results are calculations, not permission: local codes, manufacturers' instructions and licensed
# practice rule. Inspect, back up, test with a bag first.

# %%
import matplotlib.pyplot as plt
import numpy as np

from tautwork import fall

rope = {
    "mass": "80 kg",
    "height": "5 m",
    "rope": "10 m",
    "stretch": {"axial_rigidity": "9.2 kN"},
    # From the two figures of EN 892; the relaxation time is common practice, no source.
    "damping": {"standard_linear": {"arm": "12.7 kN", "relaxation_time": "0.2 s"}},
    "thresholds": ["2 kN", "3 kN", "4 kN"],
    "duration": "4 s",
    "samples": 801,
}
caught = fall.arrest_damped(rope)

# %% [markdown]
# ## Force against time

# %%
absorber = fall.arrest_damped(rope | {"slips": [{"force": "2.5 kN", "travel": "1.75 m"}]})
for label, result in {"rope": caught, "with an absorber": absorber}.items():
    plt.plot(result.series.t_s, np.asarray(result.series.force_n) / 1e3, label=label)
    for over in result.above:
        print(f"{label}: {over.time.show('s', 2)} above {over.force.show('kN', 0)}")
plt.xlabel("time after letting go, s")
plt.ylabel("force, kN")
plt.legend()
plt.show()

assert absorber.impact_force < caught.impact_force
assert absorber.drop > caught.drop
print(f"the absorber gives {absorber.slips[0].slipped.show('m', 2)}: count it in the clearance")

# %% [markdown]
# ## Where the energy is
#
# The books close: what the fall gave is stored, lost or left.

# %%
books = absorber.books
parts = {
    name: books[name].to("J")
    for name in ("stored", "lost", "lost_in_slips", "lost_to_drag", "left")
}
for name, joules in parts.items():
    print(f"{name:15}{joules:8.0f} J")
given = books.fall.to("J") + books.stored_at_start.to("J")
assert abs(sum(parts.values()) / given - 1) < 1e-8

# %% [markdown]
# ## Again on the same rope
#
# A rope just loaded is longer than its rest length and has lost a part of its give: the next fall soon
# after is harder.

# %%
slow = rope | {"damping": {"standard_linear": {"arm": "12.7 kN", "relaxation_time": "1 s"}}}
for between in ("0.2 s", "1 s", "60 s"):
    falls = fall.arrest_repeated({"fall": slow, "falls": 4, "between": between})
    peaks = [one.arrest.impact_force.to("kN") for one in falls]
    print(f"{between:6} between:", " ".join(f"{peak:.2f}" for peak in peaks), "kN")
    assert peaks[1] >= peaks[0] * (1 - 1e-9)

# %% [markdown]
# ## On a leash from a line over Kestrel Gap
#
# Ring, line and leash are one system. Of the tight lines the tighter gives less, and the leash pulls harder;
# a slack one is stiff again, since all its give is used up by standing on it.


# %%
def leash(rest_m, stretch="250 kN"):
    webbing = {
        "rest_length": f"{rest_m} m",
        "weight": "0.667 N/m",
        "stretch": {"axial_rigidity": stretch},
    }
    line = {"near": ["0 m"] * 3, "far": ["130 m", "0 m", "-3 m"], "pieces": [webbing]}
    return fall.leash_fall(
        {
            "line": line,
            "at": f"{rest_m / 2} m",
            "mass": "80 kg",
            "leash": "2 m",
            "leash_stretch": {"axial_rigidity": "30 kN"},
            "tie_in_above": "1 m",
            "body_below": "1 m",
        }
    )


ends = {rest_m: leash(rest_m) for rest_m in (131.0, 130.0, 129.0, 128.0, 127.0, 126.0, 125.0, 124.0)}
for rest_m, end in ends.items():
    print(
        f"rest length {rest_m:.0f} m: leash {end.leash_force.show('kN', 2)},",
        f"near anchor {end.standing_tension_near.show('kN', 1)} with the walker,",
        f"{end.tension_near.show('kN', 1)} in the catch,",
        f"body {end.lowest_below_line.show('m', 1)} below the line",
        *end.notes,
    )
forces = [end.leash_force for end in ends.values()]
assert forces[0] > forces[3] < forces[-1]
