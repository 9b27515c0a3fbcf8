use super::*;
use crate::rig::{PLAN_VERSION, parse, plan};

const DEMO: &str = include_str!("../../../../../../examples/kestrel-gap.toml");

/// The demo with a short horizon, with edits.
fn planned(edits: &[(&str, &str)]) -> Plan {
    let short = DEMO.replace("launch_radius", "horizon = \"5 s\"\nlaunch_radius");
    let text = edits.iter().fold(short, |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    });
    plan(&parse(&text).unwrap()).unwrap()
}

#[test]
fn a_page_is_one_file_without_scripts_and_begins_with_cautions_and_verdict() {
    let plan = planned(&[]);
    let html = plan.html();
    let at = |text: &str| html.find(text).unwrap_or_else(|| panic!("no {text}"));
    assert!(at("Rope jumping and highlining kill") < at("class=\"verdict"));
    assert!(at("class=\"verdict") < at("<nav>") && at("<nav>") < at("<table"));
    for table in &plan.tables {
        at(&format!("<section id=\"{}\">", table.key));
    }
    for tag in ["section", "table", "tr", "td", "th", "ul", "li", "figure", "p", "div", "a"] {
        let opened =
            html.matches(&format!("<{tag}>")).count() + html.matches(&format!("<{tag} ")).count();
        assert_eq!(opened, html.matches(&format!("</{tag}>")).count(), "{tag}");
    }
    assert_eq!(html.matches("<svg").count(), 3);
    assert!(!html.contains("<script") && !html.contains("<link") && !html.contains("src="));
    // The only addresses are names of XML.
    assert_eq!(
        html.matches("http").count(),
        html.matches("http://www.w3.org/2000/svg").count() + 1
    );
    let boxes: usize = plan.tables.iter().filter(|t| t.tick).map(|t| t.rows.len()).sum();
    assert_eq!(html.matches("type=\"checkbox\"").count(), boxes);
    assert!(boxes > 40);
    let body = html.split("<body").nth(1).unwrap().to_lowercase();
    assert!(!body.contains("safe"), "a word that no figure earns");
}

#[test]
fn names_never_become_markup() {
    let script = "<script>alert(1)</script>";
    let plan = planned(&[
        ("name = \"Kestrel Gap\"", &format!("name = '{script}'")),
        (
            "note = \"",
            &format!("note = \"# {script}\\n\\n| x | y |\\n<img src=x onerror=alert(1)> "),
        ),
        ("left jump rope", "left | \\\" onload=\\\"x\\\" <b>rope</b>"),
        ("\"far wall\"", "'far <i>wall</i> & `x`'"),
    ]);
    let html = plan.html();
    for wrong in ["<script", "<img", "<b>rope", "<i>", " onload=\"x"] {
        assert!(!html.contains(wrong), "{wrong}");
    }
    assert!(html.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
    let markdown = plan.markdown();
    assert!(markdown.contains("\\<script\\>") && markdown.contains("left \\| "));
    let bare = markdown.replace("\\\\", "").replace("\\<", "").replace("\\|", "");
    assert!(!bare.contains('<'), "no HTML");
    // Each row of a table has as many cells as its head.
    let mut cells = 0;
    for line in bare.lines() {
        let count = line.matches('|').count();
        assert!(cells == 0 || count == 0 || count == cells, "{line}");
        cells = count;
    }
    assert!(plan.report().contains(script), "a terminal shows texts as they are");
}

#[test]
fn every_figure_has_its_model_and_the_document_stands_in_the_report() {
    let plan = planned(&[]);
    let given = |key: &str| plan.inputs.iter().find(|i| i.key == key).map(|i| i.value.as_str());
    assert_eq!(given("line[0].tension"), Some("4.5 kN"));
    assert_eq!(given("anchor[1].position"), Some("[130 m, 0 m, -3 m]"));
    assert_eq!(given("cordage.\"10 mm dynamic\".stretch.en892_impact_force"), Some("8.6 kN"));
    assert_eq!(given("line[2].factor[0].factor"), Some("[0.66, 0.77]"));
    assert_eq!(given("frame.leg[0].pole.material"), Some("softwood"));
    assert_eq!(given("state[1].ring"), Some("false"));
    assert_eq!(given("line[1].tension"), None, "what is not given is not listed");
    for text in [plan.report(), plan.markdown(), plan.html()] {
        assert!(text.matches("Model: ").count() == plan.tables.len());
        assert!(text.contains("material::derated") && text.contains("swing/full/README.md"));
    }
}

#[test]
fn a_report_is_read_back_from_the_json_of_a_plan() {
    let plan = planned(&[]);
    let json = serde_json::to_value(&plan).unwrap();
    assert_eq!(json["version"], PLAN_VERSION);
    let report: Report = serde_json::from_value(json).unwrap();
    assert_eq!(report_text(&report, ReportFormat::Html), plan.html());
    assert_eq!(report_text(&report, ReportFormat::Text), plan.report());
}

#[test]
fn odd_tables_from_elsewhere_are_shown_all_the_same() {
    let rows = vec![vec![], vec!["a".to_owned(), "b\nc".to_owned(), "1".to_owned()]];
    let mut report = Report::from(&planned(&[]));
    for table in &mut report.tables {
        table.rows.clone_from(&rows);
        table.head.truncate(1);
    }
    report.verdict = "\n- only\n\n".to_owned();
    report.cautions.clear();
    for format in [ReportFormat::Text, ReportFormat::Markdown, ReportFormat::Html] {
        assert!(report_text(&report, format).contains("only"));
    }
}
