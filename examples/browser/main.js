// A plan in a box, solved as it is written. What does not read is said beside it, and the last good picture stays.
import { PlanError, solvePlan, wordIssue } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { fenceMap, figureCss, leakBars, voltsAlong, voltsBudgetBars } from '@postvolt/report';
import start from '../one-paddock.yaml?raw';

/** Milliseconds of quiet before a plan is solved. */
const quiet = 200;

const at = (id) => document.getElementById(id);
const box = at('plan');
const answer = document.querySelector('.answer');

/** The last plan that read, with its result; null before there was one. */
let last = null;

/** `{ solved, issues }`; `solved` is null where the plan does not read. */
function solve(text) {
  const read = readPlanText(text);
  if (!read.ok) return { solved: null, issues: read.issues };
  try {
    return { solved: { plan: read.value, result: solvePlan(read.value) }, issues: read.issues };
  } catch (error) {
    if (error instanceof PlanError) return { solved: null, issues: error.issues };
    throw error;
  }
}

function update() {
  const { solved, issues } = solve(box.value);
  box.setAttribute('aria-invalid', String(solved === null));
  at('stale').hidden = solved !== null || last === null;
  answer.classList.toggle('stale', solved === null);
  showIssues(issues);
  if (solved === null) return;
  last = solved;
  offerConditions(solved.result.conditions);
  draw();
}

function showIssues(issues) {
  const list = document.createElement('ul');
  for (const issue of issues) {
    const item = document.createElement('li');
    item.className = issue.severity;
    if (issue.at) {
      const place = document.createElement('button');
      place.type = 'button';
      place.textContent = `line ${issue.at.line}`;
      place.addEventListener('click', () => select(issue.at.line));
      item.append(place, ': ');
    }
    item.append(wordIssue({ ...issue, at: null }));
    if (issue.severity === 'warning') item.prepend('Worth a look, ');
    list.append(item);
  }
  at('issues').replaceChildren(...(issues.length > 0 ? [list] : []));
}

/** Selects a line of the plan, counted from 1. */
function select(line) {
  const lines = box.value.split('\n');
  const from = lines.slice(0, line - 1).reduce((sum, text) => sum + text.length + 1, 0);
  box.focus();
  box.setSelectionRange(from, from + (lines[line - 1]?.length ?? 0));
}

/** Keeps the condition that was chosen as long as the plan has it; the one with the least margin otherwise. */
function offerConditions(conditions) {
  const choice = at('condition');
  const kept = conditions.find(({ id }) => id === choice.value && choice.dataset.chosen === 'true');
  const worst = conditions.reduce((a, b) => (b.verdict.marginVolts < a.verdict.marginVolts ? b : a));
  choice.replaceChildren(...conditions.map(({ id, name }) => new Option(name, id)));
  choice.value = (kept ?? worst).id;
}

function draw() {
  if (last === null) return;
  const { plan, result } = last;
  const condition = result.conditions.find(({ id }) => id === at('condition').value);
  const options = (id) => ({ width: Math.max(320, Math.min(860, answer.clientWidth)), id, standalone: false });
  at('sentence').textContent = result.sentence;
  // The figures escape every text of the plan.
  const show = (id, svg) => {
    at(id).querySelector('.drawing').innerHTML = svg;
  };
  show('volts', voltsAlong({ plan, result }, options('v')));
  show('map', fenceMap({ plan, result, condition: condition.id }, options('m')));
  show('leaks', leakBars({ condition }, options('l')));
  show('budget', voltsBudgetBars({ result, condition }, options('b')));
}

/** Calls a function once it has not been asked for during the quiet time. */
function later(run) {
  let timer = 0;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(run, quiet);
  };
}

const sheet = document.createElement('style');
sheet.textContent = figureCss();
document.head.prepend(sheet);

box.value = start;
box.addEventListener('input', later(update));
at('condition').addEventListener('change', () => {
  at('condition').dataset.chosen = 'true';
  draw();
});
addEventListener('resize', later(draw));
update();
