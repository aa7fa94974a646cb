// Entries on this phone that the server has not confirmed yet: kept until it has, sent again when it is back.

// 128 random bits; crypto.randomUUID is not there for a page from another machine.
export function newId() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
}

// Where the browser keeps nothing, a page at least keeps it while it is open.
function keeper(key) {
  let memory = null;
  return {
    read: () => {
      try {
        return JSON.parse(localStorage.getItem(key)) ?? memory ?? [];
      } catch {
        return memory ?? [];
      }
    },
    write: (list) => {
      memory = list;
      try {
        localStorage.setItem(key, JSON.stringify(list));
      } catch {
        // full or forbidden: memory has it
      }
    },
  };
}

const onTheWire = ({ id, done_on, by, words, with: others, note }) => ({ id, done_on, by, words, with: others, note });

// `send(entries)` asks the server; `changed()` is called after every change; `written(note, entry)` once it stands.
export class Waiting {
  constructor({ folder, send, changed, written }) {
    this.kept = keeper(`aftercut.waiting.${folder}`);
    Object.assign(this, { send, changed, written, sending: null, trouble: null });
    window.addEventListener("storage", () => changed());
    window.addEventListener("online", () => this.flush());
  }

  get list() {
    return this.kept.read();
  }

  put(list) {
    this.kept.write(list);
    this.changed();
  }

  add(note) {
    this.put([...this.list.filter((n) => n.id !== note.id), note]);
    return this.flush();
  }

  drop(id) {
    this.put(this.list.filter((n) => n.id !== id));
  }

  // One at a time, in the order in which they were made: work follows its harvest.
  async sendAll() {
    const tried = new Set();
    for (;;) {
      const note = this.list.find((n) => !n.refused && !tried.has(n.id));
      if (!note) return;
      tried.add(note.id);
      try {
        const [entry] = (await this.send([onTheWire(note)])).entries;
        this.trouble = null;
        this.written(note, entry);
        this.drop(note.id);
      } catch (error) {
        if (error.code !== "faulty") {
          this.trouble = error;
          this.changed();
          return;
        }
        this.put(this.list.map((n) => (n.id === note.id ? { ...n, refused: { message: error.message, issues: error.issues } } : n)));
      }
    }
  }

  flush() {
    if (this.list.every((n) => n.refused)) return Promise.resolve();
    this.sending ??= this.sendAll().finally(() => { this.sending = null; });
    return this.sending;
  }
}
