/* Cells for the fields of tests/fault/everything.rules, some of numbers beyond a machine word. */
#ifndef PROPERTY_CHOICES_H
#define PROPERTY_CHOICES_H

enum { CELLS = 4 };

/* A name, and what may be put there. */
typedef const char *const choices[CELLS];

static choices everything_cells[] = {
    {"name", "a board", "a box", ""},
    {"colour", "red", "blue", "plain"},
    {"timber", "2 bf", "1.123456789123456789123 bf", "7 bf to 9 bf"},
    {"uses", "screws 8 + oil 15 g", "screws 3", ""},
    {"bench", "20 min", "1 h 7 min", "0 min"},
    {"batch", "1", "3", "12"},
    {"parcel", "0 g", "200 g", "1200 g"},
    {"share", "0.123456789123456789", "", "0.5"},
    {"made_on", "2027-01-31", "2026-01-31", ""},
    {"fragile", "yes", "no", ""},
    {"seen_high", "12", "60", ""},
    {"agreed", "17.31", "", ""},
};

#endif
