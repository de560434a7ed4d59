"use strict";

const one = (selector, inside = document) => inside.querySelector(selector);
const all = (selector, inside = document) => [...inside.querySelectorAll(selector)];
const words = JSON.parse(one("#words").textContent);
const worded = (sentence, parts = {}) => (words[sentence] ?? sentence).replace(/{(\w+)}/g, (place, name) => parts[name] ?? place);
const tracks = JSON.parse(one("#tracks").textContent);
const audio = one("#audio");

const clock = (seconds) => {
  const whole = Math.max(Math.floor(seconds), 0);
  const [hours, minutes, left] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (number) => String(number).padStart(2, "0");
  return hours ? `${hours}:${two(minutes)}:${two(left)}` : `${two(minutes)}:${two(left)}`;
};

/* --- where we are: a run, a moment of it, and the track that is loaded, if any ------------------------------- */

const here = { run: Object.keys(tracks)[0], at: 0, track: null };
const urls = new Map();

const bytes = (base64) =>
  Uint8Array.fromBase64 ? Uint8Array.fromBase64(base64) : Uint8Array.from(atob(base64), (char) => char.charCodeAt(0));

// Decoded at the first play, so that a long recording does not keep the page from opening.
const urlOf = (sound) => {
  if (!urls.has(sound)) {
    const data = bytes(one(`#sound${sound}`).textContent);
    urls.set(sound, URL.createObjectURL(new Blob([data], { type: "audio/ogg" })));
  }
  return urls.get(sound);
};

const load = (track) => {
  here.track = track;
  const url = urlOf(track.sound);
  if (audio.src === url) return Promise.resolve();
  audio.src = url;
  return new Promise((loaded, failed) => {
    audio.addEventListener("loadedmetadata", loaded, { once: true });
    audio.addEventListener("error", () => failed(new Error("not readable")), { once: true });
  });
};

const trackAt = (run, at) => tracks[run].find((track) => track.at <= at && at < track.until);

// The other number of a pair, between the given ones and beyond them: a sound card has a clock of its own.
const along = (pairs, x) => {
  if (pairs.length === 1) return pairs[0][1] + x - pairs[0][0];
  const found = pairs.findIndex((pair) => pair[0] > x);
  const after = found < 0 ? pairs.length - 1 : Math.max(found, 1);
  const [[x0, y0], [x1, y1]] = [pairs[after - 1], pairs[after]];
  return y0 + ((x - x0) * (y1 - y0)) / (x1 - x0);
};
const soundOf = (track, at) => along(track.anchors.map(([sound, heard]) => [heard, sound]), at);

const go = async (run, at, play) => {
  here.run = run;
  here.at = Math.max(at, 0);
  const track = trackAt(run, here.at);
  show();
  if (!track) {
    audio.pause();
    here.track = null;
    if (tracks[run].length) one("#caption").textContent = worded("No sound was kept of this moment.");
    return;
  }
  try {
    await load(track);
    audio.currentTime = soundOf(track, here.at);
    audio.playbackRate = Number(one("#speed").value);
    if (play) await audio.play();
  } catch (fault) {
    if (fault.name !== "AbortError") one("#caption").textContent = worded("This sound cannot be played here.");
  }
};

const toggle = () => (audio.paused ? go(here.run, here.at, true) : audio.pause());
const skip = (seconds) => go(here.run, here.at + seconds, !audio.paused);

audio.addEventListener("timeupdate", () => {
  if (!here.track || audio.seeking) return;
  here.at = along(here.track.anchors, audio.currentTime);
  show();
});
for (const change of ["play", "pause"]) {
  audio.addEventListener(change, () => {
    one("#play").textContent = audio.paused ? "▶" : "⏸";
    one("#play").setAttribute("aria-label", audio.paused ? worded("Play") : worded("Pause"));
  });
}

/* --- what shows where we are --------------------------------------------------------------------------------- */

const line = (run) => one(`.timeline[data-run="${run}"]`);
const lengthOf = (run) => Number(line(run).dataset.length);
// The seconds of the whole width: runs side by side are drawn to the scale of the longest.
const scaleOf = (run) => Number(line(run).dataset.scale);

const show = () => {
  for (const head of all(".playhead")) {
    const x = head.closest(".timeline").dataset.run === here.run ? (100 * here.at) / scaleOf(here.run) : 0;
    head.setAttribute("x1", `${x}%`);
    head.setAttribute("x2", `${x}%`);
  }
  one("#seek").max = lengthOf(here.run);
  one("#seek").value = here.at;
  one("#seek").setAttribute("aria-valuetext", clock(here.at));
  one("#time").textContent = worded("{got} of {of}", { got: clock(here.at), of: clock(lengthOf(here.run)) });
  const name = one(`#own-${here.run}`).closest(".card").querySelector("h3")?.textContent;
  one("#which").textContent = name ? `${name}:` : "";
  showCaption();
};

const showCaption = () => {
  const spoken = all(`.captions[data-run="${here.run}"] > li`).filter((line) => line.dataset.start <= here.at + 0.05);
  const last = spoken.at(-1);
  for (const line of all(".now-said")) if (line !== last) line.classList.remove("now-said");
  const now = last && here.at < Number(last.dataset.end) + 2;
  one("#caption").textContent = now ? one("span", last).textContent : "";
  if (!last || last.classList.contains("now-said")) return;
  last.classList.add("now-said");
  const list = last.parentElement;
  list.scrollTop = last.offsetTop - list.offsetTop - list.clientHeight / 2;
};

/* --- clicks -------------------------------------------------------------------------------------------------- */

document.addEventListener("click", (click) => {
  const moment = click.target.closest("[data-at]");
  const drawn = click.target.closest(".timeline");
  if (moment) {
    go(moment.dataset.run, Number(moment.dataset.at), true);
    if (!tracks[moment.dataset.run].length) one(".now-said")?.scrollIntoView({ block: "center" });
  } else if (drawn) {
    const box = drawn.getBoundingClientRect();
    const { run } = drawn.dataset;
    go(run, ((click.clientX - box.left) / box.width) * scaleOf(run), true);
  }
});
one("#play").addEventListener("click", toggle);
for (const button of all("[data-skip]")) button.addEventListener("click", () => skip(Number(button.dataset.skip)));
one("#seek").addEventListener("input", () => go(here.run, Number(one("#seek").value), !audio.paused));
one("#speed").addEventListener("change", () => (audio.playbackRate = Number(one("#speed").value)));

for (const button of all(".zoom button")) {
  button.addEventListener("click", () => {
    for (const other of all(".zoom button")) other.setAttribute("aria-pressed", String(other === button));
    for (const drawn of all(".timeline")) {
      drawn.dataset.zoom = button.dataset.zoom;
      const box = drawn.closest(".scroll");
      box.scrollLeft = (drawn.clientWidth * here.at) / scaleOf(here.run) - box.clientWidth / 2;
    }
  });
}
one("#scheme").value = document.documentElement.dataset.scheme ?? "";
one("#scheme").addEventListener("change", () => (document.documentElement.dataset.scheme = one("#scheme").value));

/* --- filters ------------------------------------------------------------------------------------------------- */

const filter = () => {
  const chosen = new FormData(one("#filters"));
  const fits = ({ dataset }) =>
    chosen.getAll("kind").includes(dataset.kind) &&
    chosen.getAll("who").includes(dataset.who) &&
    (!chosen.has("critical") || dataset.critical === "true");
  for (const mark of all("[data-kind]")) mark.classList.toggle("off", !fits(mark));
  const marks = all(".marks > li");
  const left = marks.filter((mark) => !mark.classList.contains("off")).length;
  one("#shown").textContent = left === marks.length ? worded("all") : worded("{got} of {of}", { got: left, of: marks.length });
};
one("#filters")?.addEventListener("input", filter);

/* --- keys ---------------------------------------------------------------------------------------------------- */

const shown = (selector) => all(`${selector}[data-run="${here.run}"]:not(.off)`);
const marksInTime = (selector) => shown(selector).map((mark) => Number(mark.dataset.at)).sort((a, b) => a - b);

// A little apart from the moment we are at, or a mark would follow itself.
const next = (moments) => moments.find((at) => at > here.at + 0.1);
const before = (moments) => moments.findLast((at) => at < here.at - 1);

const KEYS = {
  " ": toggle,
  j: () => jump(next(marksInTime("svg.mark"))),
  k: () => jump(before(marksInTime("svg.mark"))),
  c: () => jump(next(marksInTime("[data-before]"))),
  ArrowLeft: () => skip(-5),
  ArrowRight: () => skip(5),
};

const jump = (at) => {
  if (at !== undefined) go(here.run, at, true);
};

document.addEventListener("keydown", (press) => {
  const act = KEYS[press.key.length === 1 ? press.key.toLowerCase() : press.key];
  if (!act || !one("#keys").checked || press.ctrlKey || press.metaKey || press.altKey) return;
  if (press.target.closest("textarea, input[type=text], select")) return;
  const hasOwn = press.target.closest("button, input, summary, [tabindex]");
  if (hasOwn && !/^[a-z]$/i.test(press.key)) return;
  press.preventDefault();
  act();
});

/* --- a copy with what was written ---------------------------------------------------------------------------- */

let unsaved = false;

const saveCopy = (name) => {
  for (const field of all("textarea")) field.defaultValue = field.value;
  for (const field of all("input")) {
    if (field.type === "checkbox") field.defaultChecked = field.checked;
    else field.setAttribute("value", field.value);
  }
  const copy = document.documentElement.cloneNode(true);
  one("#audio", copy).removeAttribute("src");
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob(["<!doctype html>\n", copy.outerHTML], { type: "text/html" }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  unsaved = false;
};

for (const field of all("textarea")) field.addEventListener("input", () => (unsaved = true));
for (const button of all(".save")) button.addEventListener("click", () => saveCopy("debrief.html"));
addEventListener("beforeunload", (leaving) => unsaved && leaving.preventDefault());

/* --- signing: what is overruled is struck out, and the list is closed ----------------------------------------- */

const overrule = (id, because, name) => {
  for (const mark of all(`[data-mark="${id}"]`)) {
    mark.classList.add("overruled");
    const verdict = document.createElement("span");
    verdict.className = "verdict";
    verdict.textContent = because
      ? worded("Overruled by {name}: {why}.", { name, why: because })
      : worded("Overruled by {name}.", { name });
    if (mark.matches("li")) (one("div", mark) ?? one("p", mark)).append(verdict);
  }
};

const today = () => {
  const now = new Date();
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())} ${two(now.getHours())}:${two(now.getMinutes())}`;
};

for (const form of all(".sign-form")) {
  form.addEventListener("submit", (submitted) => {
    submitted.preventDefault();
    const name = one(".name", form).value.trim();
    if (!name) return;
    const { run, session } = form.dataset;
    const overruled = all(".overrule:checked", form);
    for (const box of overruled) overrule(box.value, one(".because", box.closest("li")).value.trim(), name);
    const of = all(".overrule", form).length;
    const sentence = worded("Signed by {name}, {day}: {accepted} of {of} marks accepted, {overruled} overruled.", {
      ...{ name, day: today(), of, accepted: of - overruled.length, overruled: overruled.length },
    });
    for (const place of all(`.signature[data-run="${run}"], .standing[data-run="${run}"]`)) {
      place.textContent = sentence;
      place.classList.add("signed");
    }
    const note = one(`.overruled-note[data-run="${run}"]`);
    if (note && overruled.length) {
      note.hidden = false;
      note.textContent = worded(
        "{number} marks were overruled since; the points stand as they were worked out before.",
        { number: overruled.length },
      );
    }
    for (const field of all("input, button[type=submit]", form)) field.disabled = true;
    saveCopy(`debrief-${session}-signed.html`);
  });
}
show();
