//! Every route with whatever comes to mind, for a bounded time: words, numbers, headers and bodies
//! that fit the API's description, that nearly do, and that don't at all.
//!
//! The same requests each time; `RINGTRUE_TEST_SEED` asks for others. `bench/fuzz.sh` goes further.

use std::collections::BTreeSet;
use std::process::Command;
use std::time::{Duration, Instant};

use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};
use serde_json::Value;

use super::client::{Server, Tablet};
use super::raw::{Reply, send};
use super::routes::{DESCRIBED, ROUTES, Route, is_described};

/// Longest that it goes on, and the fewest requests that are enough.
const TIME: Duration = Duration::from_secs(18);
const FEWEST: usize = 300;

/// What has been trouble somewhere.
const ODD: &[&str] = &[
    "",
    " ",
    "0",
    "-1",
    "1",
    "007",
    "NaN",
    "inf",
    "1e999",
    "-0.0",
    "0x10",
    "1,5 mm",
    "12 parsec",
    "1/0 in",
    "99999999999999999999999999",
    "18446744073709551615",
    "9223372036854775808",
    "null",
    "true",
    "[]",
    "../../../../etc/passwd",
    "..\\..\\x",
    "/etc/passwd",
    "C:\\x",
    "%00",
    "\0",
    "\r\nx-injected: yes",
    "\u{202e}abc",
    "\u{feff}",
    "e\u{301}\u{301}\u{301}",
    "🔩🔩",
    "ß",
    "'; DROP TABLE job; --",
    "\" onclick=x",
    "<script>alert(1)</script>",
    "{{7*7}}",
    "${x}",
    "$.set(\"\")",
    "#(sys.inputs)",
    "*",
    "%",
    "_",
    "\\",
    "toml = [",
    "[[",
    "schema = \"ringtrue/joint/1\"",
    "schema = \"ringtrue/seal/1\"\nname = 3",
    "yes",
    "no",
    "a",
    "b",
    "mm",
    "record",
    "lay-out",
    "2024-02-30",
];

/// Who asks.
#[derive(Debug, Clone, Copy)]
enum Who {
    Nobody,
    Fitter,
    Engineer,
    Keeper,
}

/// What stands as the token.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Token {
    Own,
    Wrong,
}

#[derive(Debug, Clone)]
enum Body {
    None,
    Json(Value),
    Form(Vec<(String, String)>),
    Parts(Vec<(String, Option<String>, Vec<u8>)>),
    Raw(Vec<u8>),
}

/// One request.
#[derive(Debug, Clone)]
struct Shot {
    route: Route,
    method: &'static str,
    path: String,
    who: Who,
    token: Token,
    headers: Vec<(&'static str, String)>,
    kind: Option<String>,
    body: Body,
}

/// What the pages and the job themselves call things.
#[derive(Debug, Clone)]
struct Words {
    job: String,
    fields: Vec<String>,
    steps: Vec<String>,
}

impl Words {
    fn of(tablet: &Tablet) -> Self {
        let job = tablet.open_job();
        let one = tablet.get(&format!("/api/jobs/{job}")).json();
        let steps: BTreeSet<String> = one["steps"]
            .as_array()
            .unwrap()
            .iter()
            .map(|step| step["step"].as_str().unwrap().to_owned())
            .collect();
        let pages = ["/jobs/new", "/jobs/build", "/library", "/sign-in"].map(str::to_owned);
        let pages =
            pages.into_iter().chain([format!("/jobs/{job}/sign"), format!("/jobs/{job}/try")]);
        let of_steps = steps.iter().flat_map(|step| {
            [format!("/jobs/{job}/steps/{step}"), format!("/jobs/{job}/steps/{step}/a")]
        });
        let mut fields = BTreeSet::new();
        for page in pages.chain(of_steps) {
            let body = tablet.get(&page).body;
            let names = body.split(" name=\"").skip(1).filter_map(|rest| rest.split('"').next());
            fields.extend(names.map(str::to_owned));
        }
        fields.retain(|name| name != "csrf");
        assert!(steps.len() > 10 && fields.len() > 50, "{steps:?} {fields:?}");
        Self { job, fields: fields.into_iter().collect(), steps: steps.into_iter().collect() }
    }

    fn text(&self) -> BoxedStrategy<String> {
        prop_oneof![
            6 => select(ODD).prop_map(str::to_owned),
            2 => select(self.steps.clone()),
            2 => any::<f64>().prop_map(|number| number.to_string()),
            2 => "[0-9]{1,3}[.,][0-9]{1,2} (mm|in|degC|N|kPa|um|min)",
            2 => any::<String>(),
            1 => (1_usize..5000).prop_map(|length| "x".repeat(length)),
            1 => "[0-9a-f]{64}",
        ]
        .boxed()
    }

    /// What stands for a part of an address.
    fn part(&self, name: &str, path: &str) -> BoxedStrategy<String> {
        let known = match name {
            // A paper takes its time: it is asked for seldom.
            "id" if path.ends_with("report.pdf") => return self.encoded(),
            "id" => vec![self.job.clone()],
            "step" => self.steps.clone(),
            "half" => vec!["a".to_owned(), "b".to_owned()],
            "event" => ["0", "1", "2", "18446744073709551615"].map(str::to_owned).to_vec(),
            "hash" => vec!["0".repeat(64)],
            _ => vec!["bench.css".to_owned()],
        };
        prop_oneof![4 => select(known), 1 => self.encoded()].boxed()
    }

    fn encoded(&self) -> BoxedStrategy<String> {
        let all = |bytes: Vec<u8>| bytes.iter().map(|byte| format!("%{byte:02X}")).collect();
        prop_oneof![
            4 => self.text().prop_map(move |text| all(text.into_bytes())),
            1 => prop::collection::vec(any::<u8>(), 1..20).prop_map(all),
            1 => "[!-~]{1,20}".prop_map(|text| text.replace(['/', '?', '#'], "~")),
        ]
        .boxed()
    }

    fn path(&self, route: Route) -> BoxedStrategy<String> {
        let mut built = Just(String::new()).boxed();
        for part in route.path.split('/').skip(1) {
            let part = match part.strip_prefix('{') {
                Some(name) => self.part(name.trim_end_matches('}'), route.path),
                None => Just(part.to_owned()).boxed(),
            };
            built = (built, part).prop_map(|(path, part)| format!("{path}/{part}")).boxed();
        }
        let asked =
            ["which", "search", "skip", "most", "page", "frame", "after", "next", "hardness"];
        let pair = (select(asked.map(str::to_owned).to_vec()), self.encoded());
        let query = prop::collection::vec(pair.prop_map(|(n, v)| format!("{n}={v}")), 0..3);
        (built, query)
            .prop_map(
                |(path, query)| {
                    if query.is_empty() { path } else { format!("{path}?{}", query.join("&")) }
                },
            )
            .boxed()
    }

    fn form(&self) -> BoxedStrategy<Vec<(String, String)>> {
        let name = prop_oneof![9 => select(self.fields.clone()), 1 => self.text()];
        prop::collection::vec((name, self.text()), 0..12).boxed()
    }

    fn body(&self, route: Route) -> BoxedStrategy<Body> {
        let content = &route.described()["requestBody"]["content"]["application/json"]["schema"];
        let json = if content.is_null() { self.any_json() } else { self.fitting(content) };
        let part = (
            prop_oneof![select(self.fields.clone()), self.text()],
            prop::option::of(self.text()),
            prop::collection::vec(any::<u8>(), 0..200),
        );
        let json_weight = if route.page { 1 } else { 8 };
        prop_oneof![
            json_weight => json.prop_map(Body::Json),
            4 => self.form().prop_map(Body::Form),
            2 => prop::collection::vec(part, 0..6).prop_map(Body::Parts),
            1 => prop::collection::vec(any::<u8>(), 0..300).prop_map(Body::Raw),
            1 => Just(Body::None),
        ]
        .boxed()
    }

    fn any_json(&self) -> BoxedStrategy<Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            any::<f64>().prop_map(Value::from),
            self.text().prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 30, 5, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..5).prop_map(Value::from),
                prop::collection::btree_map("[a-z]{1,8}", inner, 0..5)
                    .prop_map(|map| Value::Object(map.into_iter().collect())),
            ]
        })
        .boxed()
    }

    /// Mostly what fits a schema, now and then something else in its place.
    fn fitting(&self, schema: &Value) -> BoxedStrategy<Value> {
        if let Some(name) = schema["$ref"].as_str() {
            return self.fitting(DESCRIBED.pointer(&name[1..]).unwrap());
        }
        let fits = if let Some(words) = schema["enum"].as_array() {
            select(words.clone()).boxed()
        } else if !schema["const"].is_null() {
            Just(schema["const"].clone()).boxed()
        } else if let Some(one_of) = schema["oneOf"].as_array() {
            let all: Vec<_> = one_of.iter().map(|schema| (1, self.fitting(schema))).collect();
            prop::strategy::Union::new_weighted(all).boxed()
        } else {
            match schema["type"].as_str().unwrap_or("string") {
                "object" => self.object(schema),
                "array" => prop::collection::vec(self.fitting(&schema["items"]), 0..4)
                    .prop_map(Value::from)
                    .boxed(),
                "integer" => prop_oneof![0_i64..6, any::<i64>()].prop_map(Value::from).boxed(),
                _ => self.text().prop_map(Value::from).boxed(),
            }
        };
        prop_oneof![19 => fits, 1 => self.any_json()].boxed()
    }

    fn object(&self, schema: &Value) -> BoxedStrategy<Value> {
        let mut built = Just(serde_json::Map::new()).boxed();
        let required = schema["required"].as_array().cloned().unwrap_or_default();
        for (name, of) in schema["properties"].as_object().into_iter().flatten() {
            let often = if required.contains(&Value::from(name.as_str())) { 0.97 } else { 0.5 };
            let value = prop::option::weighted(often, self.fitting(of));
            let name = name.clone();
            let put = move |(mut map, value): (serde_json::Map<_, _>, Option<Value>)| {
                value.map(|value| map.insert(name.clone(), value));
                map
            };
            built = (built, value).prop_map(put).boxed();
        }
        built.prop_map(Value::Object).boxed()
    }

    fn headers(&self) -> BoxedStrategy<Vec<(&'static str, String)>> {
        let odd = vec![
            "origin",
            "sec-fetch-site",
            "idempotency-key",
            "last-event-id",
            "if-none-match",
            "accept-language",
            "accept-encoding",
            "content-encoding",
            "range",
            "expect",
            "x-forwarded-for",
            "x-http-method-override",
            "referer",
            "user-agent",
            "cookie",
            "host",
        ];
        // A line of a head holds no line end and no zero: those are the other tests' business.
        let value = self.text().prop_map(|text| {
            text.chars().filter(|c| !c.is_control()).take(300).collect::<String>()
        });
        prop::collection::vec((select(odd), value), 0..2).boxed()
    }

    fn shot(&self) -> BoxedStrategy<Shot> {
        let methods =
            ["GET", "POST", "HEAD", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "X-Y"].to_vec();
        let who = prop_oneof![
            2 => Just(Who::Nobody),
            3 => Just(Who::Fitter),
            3 => Just(Who::Engineer),
            2 => Just(Who::Keeper),
        ];
        let token = prop_oneof![4 => Just(Token::Own), 1 => Just(Token::Wrong)];
        let words = self.clone();
        let other = prop::option::weighted(0.1, select(methods));
        (any::<Index>(), other, who, token)
            .prop_flat_map(move |(index, other, who, token)| {
                let route = ROUTES[index.index(ROUTES.len())];
                // These would end the sessions that everything else needs.
                let ends = matches!(route.path, "/lock" | "/sign-out");
                let token = if ends { Token::Wrong } else { token };
                let kind = prop::option::weighted(0.1, "[ -~]{0,40}");
                let rest = (words.path(route), words.headers(), kind, words.body(route));
                rest.prop_map(move |(path, headers, kind, body)| Shot {
                    route,
                    method: other.unwrap_or(route.method),
                    path,
                    who,
                    token,
                    headers,
                    kind,
                    body,
                })
            })
            .boxed()
    }
}

impl Shot {
    /// The request's bytes, as a tablet with this cookie and token sends them.
    fn bytes(&self, (cookie, own): (&str, &str)) -> Vec<u8> {
        let token = if self.token == Token::Own { own } else { "0" };
        let mut body = Vec::new();
        let pair = |(name, value): &(String, String)| {
            let all = |text: &str| text.bytes().map(|b| format!("%{b:02X}")).collect::<String>();
            format!("{}={}", all(name), all(value))
        };
        let kind = match &self.body {
            Body::None => "application/x-www-form-urlencoded",
            Body::Json(value) => {
                body.extend(value.to_string().bytes());
                "application/json"
            }
            Body::Form(fields) => {
                let all: Vec<String> = fields.iter().map(pair).collect();
                body.extend(format!("csrf={token}&{}", all.join("&")).bytes());
                "application/x-www-form-urlencoded"
            }
            Body::Parts(parts) => {
                let csrf = ("csrf".to_owned(), None, token.as_bytes().to_vec());
                for (name, file, content) in std::iter::once(&csrf).chain(parts) {
                    let file = file
                        .as_ref()
                        .map_or(String::new(), |file| format!("; filename=\"{file}\""));
                    let head = format!("content-disposition: form-data; name=\"{name}\"{file}");
                    body.extend(format!("--b\r\n{head}\r\n\r\n").bytes());
                    body.extend(content);
                    body.extend(b"\r\n");
                }
                body.extend(b"--b--\r\n");
                "multipart/form-data; boundary=b"
            }
            Body::Raw(bytes) => {
                body.clone_from(bytes);
                "application/json"
            }
        };
        let mut head = format!("{} {} HTTP/1.1\r\nconnection: close\r\n", self.method, self.path);
        if !self.headers.iter().any(|(name, _)| *name == "host") {
            head += "host: HOST\r\n";
        }
        if !cookie.is_empty() {
            head += &format!("cookie: {cookie}\r\nx-csrf-token: {token}\r\n");
        }
        for (name, value) in &self.headers {
            head += &format!("{name}: {value}\r\n");
        }
        let kind = self.kind.as_deref().unwrap_or(kind);
        head += &format!("content-type: {kind}\r\ncontent-length: {}\r\n\r\n", body.len());
        [head.into_bytes(), body].concat()
    }

    /// What no answer may be, whatever was asked.
    fn judge(&self, reply: &Reply) -> Result<(), TestCaseError> {
        let status = reply.status;
        // Many changes tried at once may have to wait for each other.
        let waits = status == 503 && ["/section", "/try"].iter().any(|p| self.path.contains(p));
        prop_assert!(status < 500 || waits, "{} {}", reply.head, reply.text());
        prop_assert!(reply.headers("x-injected").next().is_none(), "{}", reply.head);
        // What can't be read as a request is answered before it is one.
        let unread = matches!(status, 400 | 414 | 431) && reply.body.is_empty();
        if unread {
            return Ok(());
        }
        let safe = reply.header("content-security-policy").starts_with("default-src 'none'");
        prop_assert!(safe && reply.header("x-content-type-options") == "nosniff", "{}", reply.head);
        if self.method == self.route.method {
            is_described((self.method, self.route.path), status);
        }
        let refused = match self.who {
            Who::Nobody => !self.route.open,
            Who::Fitter | Who::Engineer | Who::Keeper => self.token == Token::Wrong,
        };
        if refused && self.method == "POST" && self.route.method == "POST" && !self.route.open {
            let away = status == 303 && reply.header("location").starts_with("/sign-in?next=");
            // A page's token stands in its form: one that can't be read holds none.
            let unreadable = self.route.page && matches!(status, 400 | 415);
            let no = matches!(status, 401 | 403 | 404 | 421) || away || unreadable;
            prop_assert!(no, "{}", reply.head);
        }
        Ok(())
    }
}

#[test]
fn whatever_is_asked_is_answered_and_nothing_breaks() {
    let mut server = Server::with_people();
    let tablets = ["Fay", "Eli", "Kim"].map(|name| Tablet::of(&server, name));
    let words = Words::of(&tablets[0]);
    let job = words.job.clone();
    let seed = std::env::var("RINGTRUE_TEST_SEED").ok().and_then(|seed| seed.parse().ok());
    let mut bytes = [0; 32];
    bytes[..8].copy_from_slice(&u64::to_le_bytes(seed.unwrap_or(20_261_129)));
    let config = Config {
        cases: 3000,
        failure_persistence: None,
        max_shrink_iters: 300,
        max_shrink_time: 20_000,
        ..Config::default()
    };
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &bytes);
    let since = Instant::now();
    let (asked, failed) = (std::cell::Cell::new(0), std::cell::Cell::new(false));
    let mut runner = TestRunner::new_with_rng(config, rng);
    let ran = runner.run(&words.shot(), |shot| {
        if since.elapsed() > TIME && !failed.get() {
            return Ok(());
        }
        asked.set(asked.get() + 1);
        let tablet = match shot.who {
            Who::Nobody => ("", ""),
            Who::Fitter => (tablets[0].cookie.as_str(), tablets[0].csrf.as_str()),
            Who::Engineer => (tablets[1].cookie.as_str(), tablets[1].csrf.as_str()),
            Who::Keeper => (tablets[2].cookie.as_str(), tablets[2].csrf.as_str()),
        };
        let judged = match send(&server, &shot.bytes(tablet)) {
            Some(reply) => shot.judge(&reply),
            None => Err(TestCaseError::fail("the line was closed without an answer")),
        };
        failed.set(failed.get() || judged.is_err());
        judged
    });
    if let Err(error) = ran {
        panic!("{error}");
    }
    assert!(asked.get() >= FEWEST, "{} requests in {:?}", asked.get(), since.elapsed());
    for tablet in &tablets {
        assert_eq!(tablet.get(&format!("/api/jobs/{job}")).status, 200);
    }
    server.is_well();
    let store = server.folder.path().join("record.db");
    let verified = Command::new(env!("CARGO_BIN_EXE_ringtrue"))
        .args(["job", "verify", "--all", "--store"])
        .arg(store)
        .output()
        .unwrap();
    assert!(verified.status.success(), "{}", String::from_utf8_lossy(&verified.stderr));
}
