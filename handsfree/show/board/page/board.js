// What the session tells comes as one JSON object a notice; everything is put up as text, never as markup.
"use strict";

const at = (id) => document.getElementById(id);
const words = JSON.parse(at("words").textContent);
const worded = (sentence, parts = {}) => (words[sentence] ?? sentence).replace(/{(\w+)}/g, (place, name) => parts[name] ?? place);

const EARS = {
  listening: worded("Listening"),
  speaking: worded("Speaking"),
  paused: worded("Not listening"),
};
const BOARD = worded("handsfree board");
const LOST_S = 25; // The stream gives a sign of life more often.
const SMALLEST_PX = 16;

let ahead_ms = 0; // By so much the session's clock is ahead of this device's.
let last_sign = Date.now();

function put(id, text) {
  const element = at(id);
  if (element.textContent !== text) element.textContent = text;
  element.hidden = text === "";
}

function show(notice) {
  const { glance, status } = notice;
  put("place", [glance.title, glance.place].filter(Boolean).join(" · "));
  put("do", glance.do);
  put("besides", notice.besides);
  const said = glance.say.map((one) => `“${one}”`).join(worded(" or "));
  put("say", said && worded("Say: {said}", { said }));
  put("alert", glance.alert);
  at("ear").dataset.ear = status.ear;
  put("ear-words", EARS[status.ear]);
  const heard = { words: status.heard };
  put("heard", status.heard && (status.understood ? worded("Heard: {words}", heard) : worded("Not understood: {words}", heard)));
  at("heard").classList.toggle("not-understood", !status.understood);
  list("rate", glance.rate, (item, line) => { item.textContent = line; });
  list("clocks", glance.clocks, clock);
  document.title = glance.do ? `${glance.do} · ${BOARD}` : BOARD;
  fit();
}

function list(id, values, fill) {
  at(id).replaceChildren(...values.map((value) => {
    const item = document.createElement("li");
    fill(item, value);
    return item;
  }));
}

function clock(item, running) {
  const left = document.createElement("span");
  const label = document.createElement("span");
  left.className = "left";
  label.className = "label";
  label.textContent = running.label;
  item.append(left, label);
  item.tick = () => {
    const s = Math.floor((Date.now() + ahead_ms - Date.parse(running.at)) / 1000);
    const late = running.due && s > 0;
    left.textContent = (late ? "+" : "") + span(running.due && !late ? -s : Math.max(s, 0));
    item.classList.toggle("late", late || running.urgent);
  };
  item.tick();
}

function span(s) {
  const two = (n) => String(n).padStart(2, "0");
  const hours = Math.floor(s / 3600);
  const minutes = Math.floor((s % 3600) / 60);
  return hours ? `${hours}:${two(minutes)}:${two(s % 60)}` : `${minutes}:${two(s % 60)}`;
}

// The step is written as large as its place allows; what is said besides takes no more than its share.
function fit() {
  shrink(at("besides"), 0.05);
  shrink(at("do"), 0.2);
}

function shrink(element, share) {
  let size = Math.min(innerHeight, innerWidth) * share;
  do {
    element.style.fontSize = `${size}px`;
    size *= 0.93;
  } while (size > SMALLEST_PX && (element.scrollHeight > element.clientHeight || element.scrollWidth > element.clientWidth));
}

function each_second() {
  for (const item of at("clocks").children) item.tick?.();
  const silent_s = Math.floor((Date.now() - last_sign) / 1000);
  put("lost", silent_s > LOST_S ? worded("No connection for {time}: what stands here is old.", { time: span(silent_s) }) : "");
}

function listen() {
  const stream = new EventSource("/seen");
  const alive = () => { last_sign = Date.now(); };
  stream.onopen = alive;
  stream.addEventListener("time", (event) => {
    alive();
    ahead_ms = Date.parse(event.data) - Date.now();
  });
  stream.onmessage = (event) => {
    alive();
    if (event.data) show(JSON.parse(event.data));
  };
}

at("scheme").addEventListener("click", () => {
  const root = document.documentElement;
  const dark = root.dataset.scheme ? root.dataset.scheme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  root.dataset.scheme = dark ? "light" : "dark";
});
addEventListener("resize", fit);
setInterval(each_second, 1000);
navigator.wakeLock?.request("screen").catch(() => {}); // A tablet may refuse; then it dims as it always does.
listen();
