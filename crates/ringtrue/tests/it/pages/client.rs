//! A server of its own, and a browser's place at it.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::LazyLock;
use std::time::Duration;

use serde_json::{Value, json};

use super::routes::is_described;

const PROGRAM: &str = env!("CARGO_BIN_EXE_ringtrue");
pub(crate) const PASSPHRASE: &str = "river stone coat nine";

/// A bench that runs until it is dropped.
pub(crate) struct Server {
    child: Child,
    pub(crate) url: String,
    pub(crate) folder: tempfile::TempDir,
}

impl Server {
    /// On an empty store.
    pub(crate) fn start() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let (child, url) = spawn(folder.path(), &[]);
        Self { child, url, folder }
    }

    /// On a store that holds one person of each role.
    pub(crate) fn with_people() -> Self {
        Self::with_people_and(&[])
    }

    /// The same with more options.
    pub(crate) fn with_people_and(more: &[&str]) -> Self {
        let folder = people();
        let (child, url) = spawn(folder.path(), more);
        Self { child, url, folder }
    }

    /// On a store that is there already, with more options.
    pub(crate) fn on(store: &Path, more: &[&str]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::copy(store, folder.path().join("record.db")).unwrap();
        let (child, url) = spawn(folder.path(), more);
        Self { child, url, folder }
    }

    /// The same on a disk that takes no file of more than so many KiB.
    pub(crate) fn with_little_room(kib: u32) -> Self {
        let folder = people();
        let mut shell = Command::new("bash");
        let script = format!("trap '' XFSZ; ulimit -f {kib}; exec \"$0\" \"$@\"");
        shell.args(["-c", &script, PROGRAM]);
        let (child, url) = started(shell, folder.path(), &[]);
        Self { child, url, folder }
    }

    /// Ends it as a power cut would, and starts it again on the same store.
    pub(crate) fn kill_and_restart(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
        (self.child, self.url) = spawn(self.folder.path(), &[]);
    }

    /// Is it still there, without ever having lost its head?
    pub(crate) fn is_well(&mut self) {
        assert!(self.child.try_wait().unwrap().is_none(), "the bench is gone");
        let said = std::fs::read_to_string(self.folder.path().join("stderr")).unwrap();
        assert_eq!(said, "", "the bench says nothing while all is well");
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A folder with a store that holds one person of each role.
fn people() -> tempfile::TempDir {
    // Four passphrases take their time: they are locked once for all tests.
    static MADE: LazyLock<Vec<u8>> = LazyLock::new(|| {
        let folder = tempfile::tempdir().unwrap();
        let store = folder.path().join("record.db");
        for (name, role) in
            [("Fay", "fitter"), ("Cam", "checker"), ("Eli", "engineer"), ("Kim", "keeper")]
        {
            let added = Command::new(PROGRAM)
                .args(["person", "add", name, "--role", role, "--store"])
                .arg(&store)
                .env("RINGTRUE_NEW_PASSPHRASE", PASSPHRASE)
                .output()
                .unwrap();
            assert!(added.status.success(), "{}", String::from_utf8_lossy(&added.stderr));
        }
        std::fs::read(store).unwrap()
    });
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("record.db"), &*MADE).unwrap();
    folder
}

fn spawn(folder: &Path, more: &[&str]) -> (Child, String) {
    started(Command::new(PROGRAM), folder, more)
}

fn started(mut program: Command, folder: &Path, more: &[&str]) -> (Child, String) {
    let mut child = program
        .args(["bench", "--port", "0", "--store"])
        .arg(folder.join("record.db"))
        .args(more)
        // Solved curves stay for the next run of the tests.
        .env("XDG_CACHE_HOME", env!("CARGO_TARGET_TMPDIR"))
        .stdout(Stdio::piped())
        .stderr(std::fs::File::create(folder.join("stderr")).unwrap())
        .spawn()
        .unwrap();
    let mut line = String::new();
    BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
    let url = line.trim().strip_prefix("Bench at ").unwrap_or_else(|| panic!("{line}"));
    (child, url.to_owned())
}

/// What came back.
#[derive(Debug)]
pub(crate) struct Answer {
    pub(crate) status: u16,
    pub(crate) headers: ureq::http::HeaderMap,
    pub(crate) body: String,
}

impl Answer {
    pub(crate) fn json(&self) -> Value {
        serde_json::from_str(&self.body).unwrap_or_else(|_| panic!("{}", self.body))
    }

    pub(crate) fn header(&self, name: &str) -> &str {
        self.headers.get(name).map_or("", |value| value.to_str().unwrap())
    }
}

/// A request in the making.
pub(crate) struct Asked<'a> {
    pub(crate) method: &'a str,
    pub(crate) path: &'a str,
    pub(crate) headers: Vec<(&'a str, String)>,
    pub(crate) body: Vec<u8>,
}

/// One tablet.
pub(crate) struct Tablet {
    agent: ureq::Agent,
    url: String,
    pub(crate) cookie: String,
    pub(crate) csrf: String,
}

impl Tablet {
    pub(crate) fn at(server: &Server) -> Self {
        let agent = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .max_redirects(0)
            .timeout_global(Some(Duration::from_secs(60)))
            .build()
            .into();
        Self { agent, url: server.url.clone(), cookie: String::new(), csrf: String::new() }
    }

    /// A tablet at which somebody has signed in.
    pub(crate) fn of(server: &Server, name: &str) -> Self {
        let mut tablet = Self::at(server);
        tablet.sign_in(name);
        tablet
    }

    pub(crate) fn sign_in(&mut self, name: &str) {
        self.sign_in_with(name, PASSPHRASE);
    }

    pub(crate) fn sign_in_with(&mut self, name: &str, passphrase: &str) {
        let body = json!({ "name": name, "passphrase": passphrase, "device": "bench 3" });
        let answer = self.post_json("/api/session", &body, &[]);
        assert_eq!(answer.status, 200, "{}", answer.body);
        self.csrf = answer.json()["csrf_token"].as_str().unwrap().to_owned();
        let cookie = answer.header("set-cookie");
        assert!(cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"), "{cookie}");
        self.cookie = cookie.split(';').next().unwrap().to_owned();
    }

    pub(crate) fn send(&self, asked: Asked<'_>) -> Answer {
        let mut request = ureq::http::Request::builder()
            .method(asked.method)
            .uri(format!("{}{}", self.url, asked.path));
        if !self.cookie.is_empty() {
            request = request.header("cookie", &self.cookie);
        }
        for (name, value) in asked.headers {
            request = request.header(name, value);
        }
        let mut response = self.agent.run(request.body(asked.body).unwrap()).unwrap();
        let status = response.status().as_u16();
        is_described((asked.method, asked.path), status);
        Answer {
            status,
            headers: response.headers().clone(),
            body: response.body_mut().read_to_string().unwrap_or_default(),
        }
    }

    pub(crate) fn get(&self, path: &str) -> Answer {
        self.send(Asked { method: "GET", path, headers: Vec::new(), body: Vec::new() })
    }

    /// Posts JSON with the session's token, and more headers.
    pub(crate) fn post_json(&self, path: &str, body: &Value, more: &[(&str, &str)]) -> Answer {
        let mut headers = vec![("content-type", "application/json".to_owned())];
        if !self.csrf.is_empty() {
            headers.push(("x-csrf-token", self.csrf.clone()));
        }
        headers.extend(more.iter().map(|(name, value)| (*name, (*value).to_owned())));
        self.send(Asked { method: "POST", path, headers, body: body.to_string().into_bytes() })
    }

    /// Posts a page's form with the session's token.
    pub(crate) fn post_form(&self, path: &str, fields: &[(&str, &str)]) -> Answer {
        let encoded = |text: &str| -> String {
            text.bytes()
                .map(|byte| match byte {
                    b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(byte).to_string(),
                    byte => format!("%{byte:02X}"),
                })
                .collect()
        };
        let csrf = ("csrf", self.csrf.as_str());
        let all = fields.iter().chain([&csrf]);
        let body: Vec<String> =
            all.map(|(name, value)| format!("{}={}", encoded(name), encoded(value))).collect();
        let kind = ("content-type", "application/x-www-form-urlencoded".to_owned());
        // A page's script carries the token beside the form, too.
        let headers = vec![kind, ("x-csrf-token", self.csrf.clone())];
        self.send(Asked { method: "POST", path, headers, body: body.join("&").into_bytes() })
    }

    /// Opens the example job, and gives its id.
    pub(crate) fn open_job(&self) -> String {
        let answer = self.post_json("/api/jobs", &example_joint(), &[]);
        assert_eq!(answer.status, 201, "{}", answer.body);
        answer.json()["job"].as_str().unwrap().to_owned()
    }

    /// Does something on a job that has so many events.
    pub(crate) fn act(&self, job: &str, (expected, deed): (u64, Value)) -> Answer {
        let body = json!({ "expected": expected, "deed": deed });
        self.post_json(&format!("/api/jobs/{job}/events"), &body, &[])
    }
}

/// The joint of the final drive, with all files that it names.
pub(crate) fn example_joint() -> Value {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples/final-drive");
    let text = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    json!({
        "joint": text("joint.toml"),
        "files": {
            "frame-half.toml": text("frame-half.toml"),
            "hub-half.toml": text("hub-half.toml"),
        },
    })
}

/// A tick on the first step: what can be done on any new job.
pub(crate) fn first_tick() -> Value {
    json!({ "kind": "record", "step": "make-safe", "half": null, "given": [
        { "kind": "tick", "name": "locked-out", "answer": "yes" },
        { "kind": "tick", "name": "pressure-off", "answer": "yes" },
    ] })
}
