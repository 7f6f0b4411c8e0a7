#!/usr/bin/env python3
"""Calculates a working again from nothing but the file that `calc --trace` wrote. Python's own library, no more.

    npm run --silent calc -- --trace '=BURN.PIN.OXYGEN(4,10)' | python3 test/published/replay_trace.py

Every node with an expression is calculated from the nodes before it, and must come out within one part in a thousand
million; every node must come from nodes that stand before it; every hash must be that of its nodes. Prints what was done.
"""
import hashlib
import json
import math
import re
import struct
import sys

CLOSE = 1e-9
TOKEN = re.compile(r"\s*(?:(\d+(?:\.\d+)?(?:e[+-]?\d+)?)|([A-Za-z_]\w*)|(<=|>=|[-+*/^(),<>]))")
FUNCTIONS = {
    "min": min,
    "max": max,
    "ceil": math.ceil,
    "floor": math.floor,
    "sqrt": math.sqrt,
    "ln": math.log,
    "exp": math.exp,
    "abs": abs,
}
COMPARED = {
    "<": lambda a, b: a < b,
    "<=": lambda a, b: a <= b,
    ">": lambda a, b: a > b,
    ">=": lambda a, b: a >= b,
}


def divided(a, b):
    """As IEEE 754 has it: Python raises where others give an infinity."""
    if b == 0:
        return math.nan if a == 0 else math.copysign(math.inf, a) * math.copysign(1, b)
    return a / b


class Expression:
    """Reads an expression and gives its value as it goes."""

    def __init__(self, text, values):
        self.values = values
        self.tokens = []
        at = 0
        while at < len(text.rstrip()):
            found = TOKEN.match(text, at)
            if not found:
                raise ValueError("cannot read " + text[at:])
            self.tokens.append(found.group(0).strip())
            at = found.end()
        self.at = 0

    def next(self):
        return self.tokens[self.at] if self.at < len(self.tokens) else ""

    def take(self, token):
        if self.next() != token:
            raise ValueError("wanted " + token + ", found " + self.next())
        self.at += 1

    def value(self):
        value = self.sum()
        if self.next():
            raise ValueError("left over: " + self.next())
        return value

    def sum(self):
        value = self.product()
        while self.next() in ("+", "-"):
            sign = self.next()
            self.at += 1
            other = self.product()
            value = value + other if sign == "+" else value - other
        return value

    def product(self):
        value = self.signed()
        while self.next() in ("*", "/"):
            sign = self.next()
            self.at += 1
            other = self.signed()
            value = value * other if sign == "*" else divided(value, other)
        return value

    def signed(self):
        if self.next() != "-":
            return self.power()
        self.at += 1
        return -self.signed()

    def power(self):
        base = self.atom()
        if self.next() != "^":
            return base
        self.at += 1
        return base ** self.signed()

    def atom(self):
        token = self.next()
        self.at += 1
        if token == "(":
            value = self.sum()
            self.take(")")
            return value
        if token[:1].isdigit():
            return float(token)
        if self.next() == "(":
            return self.call(token)
        return math.pi if token == "PI" else self.values[token]

    def call(self, name):
        self.take("(")
        if name == "if":
            left = self.sum()
            holds = COMPARED[self.next()]
            self.at += 1
            right = self.sum()
            self.take(",")
            then = self.sum()
            self.take(",")
            otherwise = self.sum()
            self.take(")")
            return then if holds(left, right) else otherwise
        arguments = [self.sum()]
        while self.next() == ",":
            self.at += 1
            arguments.append(self.sum())
        self.take(")")
        return FUNCTIONS[name](*arguments)


def line_of(node):
    value = node["value"]
    shown = value if isinstance(value, str) else struct.pack(">d", value).hex()
    parts = [node["symbol"], node["origin"], node["expression"] or "", ",".join(node["from"]), shown]
    return "\t".join(parts) + "\n"


def replay(item, place):
    values = {}
    calculated = 0
    for node in item["nodes"]:
        where = place + ", " + node["symbol"]
        missing = [symbol for symbol in node["from"] if symbol not in values]
        if missing:
            raise SystemExit(where + " comes from what does not stand before it: " + ", ".join(missing))
        if node["origin"] == "expression":
            again = Expression(node["expression"], values).value()
            told = node["value"]
            if not abs(again - told) <= CLOSE * max(abs(again), abs(told)):
                raise SystemExit("%s = %s gives %r, told %r" % (where, node["expression"], again, told))
            calculated += 1
        values[node["symbol"]] = node["value"]
    digest = hashlib.sha256("".join(line_of(node) for node in item["nodes"]).encode()).hexdigest()
    if digest != item["hash"]:
        raise SystemExit(place + ": the hash is not that of its nodes")
    if item["result"] is not None and item["result"] not in values:
        raise SystemExit(place + ": there is no node " + item["result"])
    return calculated


def main():
    trace = json.load(sys.stdin)
    if trace["schema"] != "rodsheet-trace/1":
        raise SystemExit("this is no trace that is known here")
    items = calculated = nodes = 0
    for formula in trace["formulas"]:
        for call in formula["calls"]:
            for item in call["items"]:
                if "nodes" not in item:
                    continue
                calculated += replay(item, formula["formula"])
                nodes += len(item["nodes"])
                items += 1
    print("%d workings, %d nodes, %d calculated again, all the same" % (items, nodes, calculated))


main()
