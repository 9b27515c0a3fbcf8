//! Waves along ropes and lines.

use super::*;

// A rope struck at its end by a mass of speed v: the tension there rises at once by v √(EA μ), the wave
// runs at c = √(EA / μ) and doubles at a fixed end (St Venant's impact of a bar; Timoshenko and Goodier,
// Theory of Elasticity, from memory).
#[test]
fn a_blow_travels_along_the_rope() {
    let (rest, density, ea, speed) = (50.0, 0.1, 2e4, 2.0);
    let mut jump = hung(rest, density, ea, 300, speed);
    jump.follow.horizon = 0.2.seconds();
    jump.follow.sample_every = 1e-4.seconds();
    let flight = fly_full(&jump, &mesh(300)).unwrap();
    let (c, jump_n) = ((ea / density).sqrt(), speed * (ea * density).sqrt());
    let (t, body) = (&flight.series.t_s, &flight.series.rope_body_tension_n[0]);
    let ring = &flight.series.rope_ring_tension_n[0];
    // The mean before the wave is back, since a row of masses rings behind its front.
    let mean = |y: &[f64], from: f64, to: f64| {
        let of: Vec<f64> =
            t.iter().zip(y).filter(|(t, _)| **t > from && **t < to).map(|(_, y)| *y).collect();
        of.iter().sum::<f64>() / of.len() as f64
    };
    let way_s = rest / c;
    // The mass slows as exp(−√(EA μ) t / M).
    let slowed = |t_s: f64| (-(ea * density).sqrt() * t_s / 80.0).exp();
    let got = mean(body, 0.0, way_s) - body[0];
    let want = jump_n * slowed(0.5 * way_s);
    println!("jump at the body {got:.2} N, exact {want:.2}");
    assert!((got / want - 1.0).abs() < 0.01);
    let got = mean(ring, way_s + 0.01, way_s + 0.05) - ring[0];
    let want = 2.0 * jump_n * slowed(0.03);
    println!("jump at the ring {got:.2} N, exact {want:.2}");
    assert!((got / want - 1.0).abs() < 0.01);
    let arrival = rises(t, ring, ring[0] + jump_n)[0];
    println!("arrival after {arrival:.5} s, exact {way_s:.5}");
    assert!((arrival / way_s - 1.0).abs() < 0.01);
    assert!(
        ring.iter().zip(t).all(|(n, t)| *t > 0.95 * way_s || (n - ring[0]).abs() < 0.01 * jump_n)
    );
}

// A mass on a heavy rope bounces at ω = β c / L with β tan β = m / M (Rayleigh, Theory of Sound, from
// memory).
#[test]
fn a_mass_bounces_on_a_heavy_rope() {
    let (rest, density, ea) = (40.0, 0.5, 5e4);
    let mut jump = hung(rest, density, ea, 80, 0.1);
    jump.follow.horizon = 10.0.seconds();
    jump.follow.sample_every = 2e-3.seconds();
    let flight = fly_full(&jump, &mesh(80)).unwrap();
    let z = &flight.series.z_m;
    let passes = rises(&flight.series.t_s, z, z[0]);
    let period = (passes[passes.len() - 1] - passes[0]) / (passes.len() - 1) as f64;
    let share = rest * density / 80.0;
    let (mut low, mut high) = (1e-6_f64, 1.5);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if middle * middle.tan() < share { low = middle } else { high = middle }
    }
    let exact = 2.0 * core::f64::consts::PI * rest / (low * (ea / density).sqrt());
    println!("period {period:.5} s, exact {exact:.5}");
    assert!((period / exact - 1.0).abs() < 2e-3);
}

// A plucked string with a mass M in its middle swings at ω = 2 β c / l, cot β = β M / (ρ l), c = √(T / ρ), ρ on
// the stretched length (Timoshenko, Vibration Problems in Engineering, from memory); without M, 2 l / c.
#[test]
fn a_plucked_line_keeps_the_period_of_a_string() {
    let mut jump = plain(at(50.0, -30.0), 1.0, 1.0);
    jump.fixed_ring = None;
    jump.ring_mass = 100.0.grams();
    jump.ropes.clear();
    jump.lines = vec![Line {
        name: "line".into(),
        near: at(0.0, 0.0),
        far: at(100.0, 0.0),
        near_length: 45.0.meters(),
        far_length: 45.0.meters(),
        linear_density: 0.1.kilograms_per_meter(),
        stretch: crate::material::Stretch::axial_rigidity(50.0.kilonewtons()).unwrap(),
    }];
    jump.follow.horizon = 8.0.seconds();
    jump.follow.sample_every = 1e-3.seconds();
    let still = fly_full(&jump, &mesh(120)).unwrap();
    let rest = still.ring.start;
    jump.ring_at_exit = Some(Place { z: rest.z + 0.1.meters(), ..rest });
    let flight = fly_full(&jump, &mesh(120)).unwrap();
    let passes = rises(&flight.series.t_s, &flight.series.ring_z_m, rest.z.si());
    let period = (passes[passes.len() - 1] - passes[0]) / (passes.len() - 1) as f64;
    let tension = still.lines[0].near_standing.si();
    let (c, share) = ((tension / (0.1 * 0.9)).sqrt(), 0.1 / 9.0);
    let mut beta = 0.5 * core::f64::consts::PI;
    for _ in 0..50 {
        beta = (1.0 / (beta * share)).atan();
    }
    let exact = core::f64::consts::PI * 100.0 / (beta * c);
    println!("period {period:.5} s, exact {exact:.5}");
    assert!((period / exact - 1.0).abs() < 2e-3);
}

// In the catch of the demo rig slack lines snap: far above what they would carry at rest.
#[test]
fn slack_lines_snap_in_the_catch() {
    let mut jump = demo();
    jump.walls.clear();
    jump.follow.horizon = 7.0.seconds();
    let flight = fly_full(&jump, &mesh(40)).unwrap();
    for line in &flight.lines[1..] {
        println!("{}: {:?} against {:?}", line.name, line.near.value, line.quasi_static);
        assert!(line.over_quasi_static.unwrap().si() > 2.0);
    }
    assert!((flight.lines[0].over_quasi_static.unwrap().si() - 1.0).abs() < 0.05);
    // The wave needs time along the rope: its ends differ.
    let rope = &flight.ropes[0];
    assert!(rope.body_end.value != rope.ring_end.value);
}
