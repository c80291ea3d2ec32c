"use strict";
// The page without reloading: a changed field is sent in the background, and
// the sections that changed come back. All of it works without this file too.
(() => {
  const root = document.documentElement;
  root.classList.add("script");
  const $ = id => document.getElementById(id);
  const set = $("set");
  const state = { design: set.elements["~d"].value, view: set.elements["~v"].value, have: {}, timer: 0, search: null, trimmed: false, last: { key: "", at: 0 }, step: 0, returned: null, wrong: [] };
  const unanswered = new Unanswered(ask, show, lost);

  // Steps: each is one entry of the browser's history; their names are kept
  // for as long as the tab lives.
  const names = () => JSON.parse(sessionStorage.getItem("steps") || "[]");
  if (!history.state) {
    history.replaceState({ step: 0, design: state.design, view: state.view }, "");
    sessionStorage.setItem("steps", "[]");
  }
  state.step = history.state.step;
  function tellSteps() {
    const list = names(), n = state.step;
    const undo = $("undo"), redo = $("redo");
    undo.disabled = n === 0;
    undo.textContent = n > 0 && list[n - 1] ? "Undo " + list[n - 1] : "Undo";
    redo.disabled = n >= list.length;
    redo.textContent = n < list.length ? "Redo " + list[n] : "Redo";
  }
  $("undo").addEventListener("click", () => { flushTyped(); unanswered.afterwards(() => history.back()); });
  $("redo").addEventListener("click", () => { flushTyped(); unanswered.afterwards(() => history.forward()); });
  let arrived = null; // is called when the browser is back where it was
  addEventListener("popstate", e => {
    if (!e.state) { // the address was changed by hand, behind its #
      history.replaceState({ step: state.step, design: state.design, view: state.view }, "");
      return;
    }
    if (arrived) {
      arrived();
      arrived = state.returned = null;
      return;
    }
    const by = e.state.step - state.step;
    flushTyped();
    if (by && unanswered.edits()) { // what is under way is a step too, and comes first
      state.returned = new Promise(end => { arrived = end; });
      history.go(-by);
      unanswered.afterwards(() => history.go(by));
      return;
    }
    state.last.key = "";
    state.step = e.state.step;
    send({}, { design: e.state.design, view: e.state.view, silent: true });
  });
  document.addEventListener("keydown", e => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey || e.key.toLowerCase() !== "z") return;
    if (e.target.closest("input, textarea")) return;
    e.preventDefault();
    $(e.shiftKey ? "redo" : "undo").click();
  });

  // morph makes one element like another with as few changes as can be, so
  // that focus, open details and half-typed text stay.
  function morph(from, to) {
    if (from.nodeType !== to.nodeType || from.nodeName !== to.nodeName || (from.id || "") !== (to.id || "")) {
      from.replaceWith(to);
      return;
    }
    if (from.nodeType !== 1) {
      if (from.data !== to.data) from.data = to.data;
      return;
    }
    const asked = from.matches("input") && from.form !== set && from.value !== from.defaultValue && from.defaultValue === to.defaultValue; // is not asked yet
    const typing = asked || from.name === to.name && unsent(from) || !state.back && from === document.activeElement && from.matches("input, textarea");
    const chosen = typing && from.matches("select") ? from.value : null;
    for (const a of [...to.attributes]) if (from.getAttribute(a.name) !== a.value) from.setAttribute(a.name, a.value);
    for (const a of [...from.attributes]) if (!to.hasAttribute(a.name) && !(a.name === "open" && from.nodeName === "DETAILS")) from.removeAttribute(a.name);
    if (from.matches("textarea")) {
      if (from.defaultValue !== to.defaultValue) from.defaultValue = to.defaultValue;
      if (!typing && from.value !== to.value) from.value = to.value;
      return;
    }
    morphInside(from, to);
    if (from.matches("[type=radio]")) {
      if (!unanswered.last("front.layout")) from.checked = to.checked;
      return;
    }
    if (from.matches("input:not([type=file])") && !typing && from.value !== to.value) from.value = to.value;
    if (from.matches("select") && from.value !== (chosen ?? to.value)) from.value = chosen ?? to.value;
  }
  function morphInside(from, to) {
    let old = from.firstChild;
    for (let next = to.firstChild; next;) {
      const after = next.nextSibling;
      const there = next.id && old && old.id !== next.id && document.getElementById(next.id);
      const same = there && there.parentNode === from ? there : null;
      if (!old) {
        from.append(next);
      } else if (!same && old.id && old.id !== next.id && to.querySelector(`:scope > #${CSS.escape(old.id)}`)) {
        from.insertBefore(next, old); // what stands there comes later
      } else {
        if (same) from.insertBefore(same, old);
        const target = same || old;
        const rest = target.nextSibling;
        morph(target, next);
        old = rest;
      }
      next = after;
    }
    while (old) {
      const rest = old.nextSibling;
      old.remove();
      old = rest;
    }
  }
  function replace(name, html) {
    if (name === "strip") setTimeout(markPlace, 0);
    const part = $("part-" + name), fresh = part.cloneNode(false);
    const held = part.contains(document.activeElement) && document.activeElement;
    fresh.innerHTML = html;
    const asked = held && held.closest(".ask");
    morphInside(part, fresh);
    if (held && !held.isConnected) focusNear(part, held, asked);
  }
  // focusNear gives the focus to what has come in place of an element that has
  // gone, or to the first offer of what was asked, else to the heading of its
  // part.
  function focusNear(part, gone, asked) {
    const near = asked ? ".ask .offers button, .ask a, .ask input" : { stop: "#again", again: "#stop" }[gone.id];
    const to = gone.name && gone.name !== "~do" && document.getElementsByName(gone.name)[0] || near && part.querySelector(near) ||
      part.querySelector("h2, h3") || part.closest("section").querySelector("h2");
    if (to.matches("h2, h3")) to.tabIndex = -1;
    to.focus();
  }
  // afterButton says what gets the focus after a button of a paper.
  function afterButton(order) {
    const [, what, number] = /^paper\.(\w+) ?(\d*)$/.exec(order) || [], n = Number(number);
    const button = (what, n) => document.querySelector(`[value="paper.${what} ${n}"]`);
    if (what === "add") return [...document.querySelectorAll(".paper .blank[name$='.name']")].pop();
    if (what === "up") return button("up", n - 1) || button("down", n - 1);
    if (what === "down") return button("down", n + 1) || button("up", n + 1);
    if (what === "drop") return document.querySelector(`#more-${n} > summary`) || document.querySelector("[value='paper.add']");
  }

  // What stands at the top is replaced at once, and the rest behind the frame
  // that shows it.
  const first = ["papersdefs", "head", "card"], waiting = new Map();
  function flush() {
    for (const [name, html] of waiting) replace(name, html);
    waiting.clear();
  }

  // send puts a change behind those that are not answered yet: changed
  // fields, or how the page is looked at.
  function send(fields, how = {}) {
    stopSearch();
    return unanswered.add({ fields, ...how });
  }
  // ask sends a change. It fails when the program does not answer.
  async function ask(change) {
    const body = change.body || new URLSearchParams(change.fields);
    if (change.by) body.set("~do", "step " + change.key + " " + change.by);
    body.set("~d", change.design || state.design);
    body.set("~v", change.view === undefined ? state.view : change.view);
    if (change.typing) body.set("~typing", "1");
    if (change.silent) state.wrong = [];
    for (const pair of state.wrong) body.append("~wrong", pair);
    body.set("~have", Object.entries(state.have).map(([name, tag]) => name + "=" + tag).join(","));
    const got = await fetch(change.to || "/set", { method: "POST", headers: { Accept: "application/json" }, body, signal: AbortSignal.timeout(40000) });
    if (!got.ok) {
      const page = new DOMParser().parseFromString(await got.text(), "text/html");
      trouble((page.querySelector(".err") || page.body).textContent);
      return null;
    }
    const answer = await got.json();
    await state.returned;
    return answer;
  }
  function lost(away) {
    state.away = away;
    if (away) trouble("This page lost its program. What you set is kept, and sent when it answers. If it does not, start panelry page again; the design is in the address.");
  }
  addEventListener("online", () => unanswered.next());
  // tooLong reports that a design is in no address, but in this page alone.
  const tooLong = design => design.length > 60000;
  addEventListener("beforeunload", e => {
    if (state.away || tooLong(state.design) && state.design !== state.saved) e.preventDefault();
  });
  document.addEventListener("submit", e => {
    if (e.target.matches("[action='/take']")) state.saved = state.design; // the kit holds it too
  });
  function trouble(text) {
    let p = $("trouble");
    if (p && p.textContent === text) return;
    if (!p) {
      p = document.createElement("p");
      p.id = "trouble";
      p.className = "err";
      $("part-head").after(p);
    }
    p.textContent = text;
    say(text);
  }
  function say(text) {
    clearTimeout(say.timer);
    say.timer = setTimeout(() => { if ($("status")) $("status").textContent = text; }, 300);
  }
  function show(answer, change) {
    if ($("trouble")) $("trouble").remove();
    flush();
    state.back = change.silent || change.to === "/open"; // then even what is being written goes back
    const field = change.key && set.elements[change.key];
    for (const [name, html] of Object.entries(answer.sections)) {
      if (name === "cuts" && html.includes("data-trim") && state.trimmed) continue; // the old ones stay until the new ones come
      if (first.includes(name) || field && $("part-" + name).contains(field)) replace(name, html);
      else waiting.set(name, html);
    }
    if (waiting.size) requestAnimationFrame(() => setTimeout(flush, 0));
    Object.assign(state.have, answer.tags);
    delete state.have.cuts;
    const changed = answer.design !== state.design;
    state.design = answer.design;
    state.view = answer.view;
    if (!answer.refused || !change.typing) state.wrong = answer.wrong || [];
    for (const form of document.forms) if (form.elements["~d"]) {
      form.elements["~d"].value = answer.design;
      if (form.elements["~v"]) form.elements["~v"].value = answer.view;
    }
    document.title = answer.title + " · Panelry";
    if (!change.silent) remember(answer, changed, change);
    markUnits();
    tellSteps();
    if (changed && !change.silent || answer.refused && !change.typing) say(answer.status);
    if (answer.search) state.timer = setTimeout(startSearch, 400);
    if (changed || !state.trimmed) later();
  }
  // remember makes a changed design a step of its own, or lengthens the one
  // before, when that was of the same field and a moment ago.
  function remember(answer, changed, change) {
    const { key, at } = change, list = names();
    const goesOn = changed && key && key === state.last.key && at - state.last.at < 1000;
    if (changed) state.last = { key, at };
    if (changed && !goesOn) {
      list.length = state.step++;
      list.push(answer.undo || "change");
      sessionStorage.setItem("steps", JSON.stringify(list));
    }
    const entry = [{ step: state.step, design: answer.design, view: answer.view }, "", answer.address + location.hash];
    changed && !goesOn ? history.pushState(...entry) : history.replaceState(...entry);
  }
  function markUnits() {
    const unit = new URLSearchParams(state.view).get("u");
    for (const a of document.querySelectorAll("[data-unit]")) {
      const q = new URLSearchParams(state.view);
      q.set("u", a.dataset.unit);
      a.href = "?" + q;
      if (unit) a.dataset.unit === unit ? a.setAttribute("aria-current", "true") : a.removeAttribute("aria-current");
    }
  }
  // look changes what is looked at, and not the design.
  function look(view, after) {
    const fresh = new URLSearchParams(view);
    send({}, { view: fresh.toString() }).then(after);
  }

  // Fields.
  const ours = e => e.target.form === set && e.target.name && !e.target.name.startsWith("~");
  let quiet = 0, typed = null; // the field that was typed into and is not sent yet
  document.addEventListener("input", e => {
    if (!ours(e) || e.target.matches("select")) return;
    if (typed !== e.target) flushTyped();
    clearTimeout(quiet);
    typed = e.target;
    quiet = setTimeout(flushTyped, 60);
  });
  function flushTyped() {
    clearTimeout(quiet);
    if (typed) sendField(typed, { typing: true });
  }
  // unsent reports whether what stands in a field is newer than the design.
  function unsent(field) {
    return field === typed || field.form === set && !!field.name && !!unanswered.last(field.name);
  }
  function sendField(field, how) {
    if (typed === field) typed = null;
    const sent = send({ [field.name]: field.value }, { key: field.name, ...how });
    if (!how) sent.then(answer => { // it is left: what is in force stands there, also where that is the usual
      if (!field.matches("select") && !unsent(field) && answer) field.value = field.defaultValue;
    });
    return sent;
  }
  // stepField goes some marks further: from what stands in the field, or from
  // where steps that are under way will lead.
  async function stepField(field, by) {
    const key = field.name, last = typed === field ? null : unanswered.last(key);
    clearTimeout(quiet);
    if (typed && typed !== field) flushTyped();
    typed = null;
    await send(last && last.by ? {} : { [key]: field.value }, { key, by });
    if (typed === field || !set.elements[key] || unanswered.last(key) && !unanswered.last(key).by) return;
    field.value = field.getAttribute("value");
    if (field === document.activeElement) field.select();
  }
  document.addEventListener("change", e => {
    if (e.target.matches("input[type=file]")) {
      openFile(e.target.files[0]);
      e.target.value = ""; // so that the same file can be chosen again
      return;
    }
    if (e.target.matches("#gallery input")) return void send({ "~do": e.target.value }, { key: "front.layout" });
    if (!ours(e)) return;
    if (typed !== e.target) flushTyped();
    clearTimeout(quiet);
    sendField(e.target);
  });
  set.addEventListener("submit", e => {
    e.preventDefault();
    const button = e.submitter, near = document.activeElement;
    const match = button && /^step (.*) (-?\d+)$/.exec(button.value);
    if (match) return void stepField(set.elements[match[1]], Number(match[2]));
    flushTyped();
    if (near && near.form === set && near.matches("input") && near.value !== near.getAttribute("value")) sendField(near);
    if (button && button.value) send({ "~do": button.value }).then(answer => {
      if (!answer || answer.refused || !afterButton(button.value)) return;
      flush();
      const to = afterButton(button.value), folded = to.closest("details");
      if (folded && to.matches("button")) folded.open = true;
      to.focus();
    });
  });
  const before = new WeakMap(); // what stood in a field when it was entered
  document.addEventListener("focusin", e => { if (ours(e)) before.set(e.target, e.target.value); });
  document.addEventListener("keydown", e => {
    if (!ours(e) || !e.target.matches("input, textarea")) return;
    const field = e.target;
    if (e.key === "Enter" && field.name === "title") {
      e.preventDefault();
      sendField(field);
      return;
    }
    if (e.key === "Escape" && before.has(field) && field.value !== before.get(field)) {
      clearTimeout(quiet);
      field.value = before.get(field);
      sendField(field);
      e.preventDefault();
      return;
    }
    const by = { ArrowUp: e.shiftKey ? 4 : 1, ArrowDown: e.shiftKey ? -4 : -1, PageUp: 16, PageDown: -16 }[e.key];
    if (!by || !field.dataset.step) return;
    e.preventDefault();
    stepField(field, by);
  });

  // A place on the page is no step back; what is taken away has all changes.
  document.addEventListener("click", e => {
    const a = e.target.closest("a");
    if (!a || e.defaultPrevented || e.ctrlKey || e.metaKey || e.shiftKey || e.button) return;
    const href = a.getAttribute("href") || "";
    if (href.startsWith("#")) {
      e.preventDefault();
      const entry = history.state;
      location.replace(href);
      history.replaceState(entry, "");
    } else if (a.hasAttribute("download") || href.includes("look=1")) {
      flushTyped();
      if (!unanswered.edits()) {
        if (a.id === "save" && tooLong(state.design)) { // it has no address to be fetched from
          e.preventDefault();
          saveLong();
          return;
        }
        if (a.id !== "save" && $("stop")) stopSearch(true); // it takes the best found so far
        return;
      }
      e.preventDefault();
      unanswered.afterwards(() => a.click());
    }
  });

  function saveLong() {
    const form = document.createElement("form");
    Object.assign(form, { method: "post", action: "/take" });
    for (const [name, value] of [["~d", state.design], ["~file", "design.toml"]]) {
      form.append(Object.assign(document.createElement("input"), { type: "hidden", name, value }));
    }
    document.body.append(form);
    state.saved = state.design;
    form.submit();
    form.remove();
  }

  // Links that only change what is looked at.
  document.addEventListener("click", e => {
    const a = e.target.closest("a[href^='?']");
    if (!a || e.ctrlKey || e.metaKey || e.shiftKey || e.button) return;
    e.preventDefault();
    const href = a.getAttribute("href"), hash = href.indexOf("#");
    const view = href.slice(1, hash < 0 ? undefined : hash);
    const panel = a.dataset.panel, closes = a.classList.contains("x");
    const open = new URLSearchParams(state.view).get("panel");
    if (view === "trim=1") return trimNow();
    if (view === "files=1") return more("files=1", "take");
    look(view, () => {
      if (panel && $("slip-h")) $("slip-h").focus();
      if (closes) focusPanel(open);
      if (!panel && !closes && href.endsWith("#card")) $("card").scrollIntoView();
    });
  });
  function focusPanel(name) {
    const panel = document.querySelector(`svg.card a[data-panel="${CSS.escape(name || "")}"]`);
    if (panel) panel.focus();
  }
  document.addEventListener("keydown", e => {
    const slip = $("panel");
    if (e.key === "Escape" && slip && (slip.contains(e.target) || e.target.closest("svg.card"))) {
      e.preventDefault();
      slip.querySelector(".x").click();
      return;
    }
    const panel = e.target.closest && e.target.closest("svg.card a");
    if (panel) movePanel(e, panel);
  });
  // movePanel goes to the nearest panel in the way of an arrow key.
  function movePanel(e, panel) {
    const all = [...document.querySelectorAll("svg.card a")];
    let to = { Home: all[0], End: all[all.length - 1] }[e.key];
    const way = { ArrowUp: [0, -1], ArrowDown: [0, 1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] }[e.key];
    if (way) {
      const middle = x => { const b = x.querySelector("path").getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; };
      const [x, y] = middle(panel);
      let best = Infinity;
      for (const other of all) {
        const [ox, oy] = middle(other), along = (ox - x) * way[0] + (oy - y) * way[1];
        const aside = Math.abs((ox - x) * way[1]) + Math.abs((oy - y) * way[0]);
        if (other !== panel && along > 1 && along + 2 * aside < best) { best = along + 2 * aside; to = other; }
      }
    }
    if (e.key === " ") { e.preventDefault(); panel.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true })); return; }
    if (!to && !way) return;
    e.preventDefault();
    if (!to) return;
    panel.setAttribute("tabindex", "-1");
    to.setAttribute("tabindex", "0");
    to.focus();
  }
  document.addEventListener("submit", e => {
    if (!e.target.matches("[data-fit]")) return;
    e.preventDefault();
    const q = new URLSearchParams(state.view);
    q.set("fit", e.target.elements.fit.value);
    look(q.toString());
  });

  // Open, save, link.
  function openFile(file) {
    if (!file) return;
    const body = new FormData();
    body.set("file", file);
    send({}, { to: "/open", body });
    document.querySelector("details.file").open = false;
  }
  const files = e => e.dataTransfer && e.dataTransfer.types.includes("Files"); // text is dropped into fields
  addEventListener("dragover", e => { if (files(e)) e.preventDefault(); });
  addEventListener("drop", e => {
    if (!files(e)) return;
    e.preventDefault();
    openFile(e.dataTransfer.files[0]);
  });
  $("copy").addEventListener("click", async () => {
    flushTyped();
    await new Promise(end => unanswered.afterwards(end));
    try {
      await navigator.clipboard.writeText(location.href);
      say("Link copied.");
      $("copy").textContent = "Link copied";
      setTimeout(() => { $("copy").textContent = "Copy link"; }, 2000);
    } catch {
      say("The link could not be copied; copy the address of this page.");
    }
  });
  document.addEventListener("click", e => {
    if (e.target.id === "print") print();
    if (e.target.id === "stop") stopSearch(true);
    if (e.target.id === "again") tellSearch("again");
  });

  // A longer search, in the background.
  function startSearch() {
    stopSearch();
    if (tooLong(history.state.design)) return;
    const source = state.search = new EventSource("/d/" + state.design + "/search");
    let least = Infinity;
    source.onmessage = e => {
      const found = JSON.parse(e.data);
      const bar = document.querySelector("#search progress");
      if (bar) bar.value = found.done;
      if ($("search-text") && found.text) $("search-text").textContent = found.text;
      if ($("stop")) $("stop").textContent = "Stop and keep " + found.sheets;
      if (found.sheets < least && least < Infinity) say("Found " + found.sheets + " sheets.");
      least = Math.min(least, found.sheets);
      if (found.end) {
        stopSearch();
        send({});
      }
    };
    source.onerror = () => {
      stopSearch();
      if ($("search")) state.timer = setTimeout(startSearch, 3000); // the program was away
    };
  }
  function stopSearch(keep) {
    clearTimeout(state.timer);
    const going = state.search;
    state.search = null;
    if (going) going.close();
    if (keep) tellSearch("stop");
  }
  const tellSearch = what => fetch("/d/" + state.design + "/search?" + what + "=1").catch(() => {}).then(() => send({}));

  // The straight cuts take longer than the rest, so they come when all is
  // quiet; those of the design before stay until then.
  let trimTimer = 0;
  function later() {
    clearTimeout(trimTimer);
    trimTimer = setTimeout(trimNow, 600);
  }
  const trimNow = () => more("trim=1", "cuts").then(came => { state.trimmed = state.trimmed || came; });
  // more fetches what is only worked out when it is asked for.
  async function more(what, part) {
    const design = state.design;
    if (tooLong(design)) return false;
    try {
      const got = await fetch("/d/" + design + "/?" + what + "&" + state.view, { headers: { Accept: "application/json" } });
      if (!got.ok) return false;
      const answer = await got.json();
      if (design !== state.design) return false;
      replace(part, answer.sections[part]);
      delete state.have[part];
      return true;
    } catch {
      return false; // it stays a link
    }
  }

  // The strip marks the place that is being read.
  const seen = new Map();
  const watch = new IntersectionObserver(entries => {
    for (const e of entries) seen.set(e.target.id, e.isIntersecting);
    markPlace();
  }, { rootMargin: "-35% 0px -60% 0px" });
  for (const section of document.querySelectorAll("main > section")) watch.observe(section);
  function markPlace() {
    for (const a of document.querySelectorAll(".strip a")) {
      if (seen.get(a.hash.slice(1))) a.setAttribute("aria-current", "location");
      else a.removeAttribute("aria-current");
    }
  }

  tellSteps();
  if (document.querySelector("[data-search]")) state.timer = setTimeout(startSearch, 400);
  later();
})();
