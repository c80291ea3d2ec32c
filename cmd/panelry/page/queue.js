"use strict";
// Unanswered holds what was changed and is not answered yet, oldest first.
// One change at a time is asked for, against the newest design, so that none
// undoes another. While the program is away all are kept, and asked for again.
class Unanswered {
  // ask sends a change and gives its answer, or fails when there is none;
  // take shows the answer; tell says whether the program is away.
  constructor(ask, take, tell) {
    Object.assign(this, { ask, take, tell, list: [], under: null, waits: [], tries: 0, timer: 0 });
  }
  // add puts a change at the end. One of the same field, typed or stepped,
  // that is not under way becomes one with it. It resolves to its answer.
  add(change) {
    change.at = Date.now();
    const tail = this.list[this.list.length - 1];
    if (tail && tail !== this.under && tail.key && tail.key === change.key) {
      const more = change.by && change.fields[change.key] === undefined; // steps from where the others lead
      if (more) tail.by = (tail.by || 0) + change.by;
      else Object.assign(tail, { fields: change.fields, by: change.by, typing: change.typing });
      tail.at = change.at;
      return tail.done;
    }
    if (tail && tail !== this.under && tail.silent && change.silent) this.list.pop().end();
    change.done = new Promise(end => { change.end = end; });
    this.list.push(change);
    this.next();
    return change.done;
  }
  async next() {
    if (this.under || !this.list.length) return;
    clearTimeout(this.timer);
    const change = this.under = this.list[0];
    let answer;
    try {
      answer = await this.ask(change);
    } catch {
      this.under = null;
      this.tell(true);
      this.timer = setTimeout(() => this.next(), Math.min(4000, 250 * 2 ** this.tries++));
      return;
    }
    this.under = null;
    this.list.splice(this.list.indexOf(change), 1);
    if (this.tries) this.tell(false);
    this.tries = 0;
    if (answer) this.take(answer, change);
    change.end(answer);
    this.next();
    while (!this.list.length && this.waits.length) this.waits.shift()();
  }
  // last is the newest change of a field that is not answered.
  last(key) { return this.list.findLast(c => c.key === key || c.fields[key] !== undefined); }
  // edits reports whether some of them may change the design.
  edits() { return this.list.some(c => !c.silent && c.view === undefined); }
  // afterwards calls when all are answered: at once, if they are.
  afterwards(call) { this.list.length ? this.waits.push(call) : call(); }
}
