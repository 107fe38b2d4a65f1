// The grammar of the rules language, for Lemon. Each action calls one function of build.h; what
// the words mean is decided on the tree. Generated with `lemon -c`: with compressed tables a
// fallback word would be shifted before a default reduction is tried.
%name grammar_
%token_prefix TOKEN_
%token_type {struct span}
%extra_context {struct build *build}
%stack_size 2500
%include {
#include "build.h"
#include "token.h"

// After a statement in error the next one is reported however near its own error is.
#define RECOVERED (yypParser->yyerrcnt = -1)
}

%token NL NAME NUMBER PERCENT TEXT DATE ASSIGN SYMBOL FRACTION MARKED WORTH MORE MISSING.
%token BEGIN_VALUE BEGIN_PARTS SEMICOLON.

// Words that are names wherever the grammar has no use for them.
%fallback NAME CURRENCY UNIT USE MATERIALS PRODUCT RATE LET COST PAY TABLE ROUNDING CHANNEL FEE TAX
  PRICE SHOW WARN REFUSE GOAL EXPECT ANY SLICED OPTIONAL FROM WHEN ON NEEDS GIVES TAKES HAS AIM SET
  FLOOR CEILING DISCOUNT PIN ROUND NONE ADDED INCLUDED EVERY TO BY BELOW OVER WEIGHS REFUSED WARNED
  ERROR LIKELY.

%syntax_error {
    build_syntax_error(build, yymajor, TOKEN);
    // A word that only falls back to a name is not offered beside the name.
    YYACTIONTYPE state = yypParser->yytos->stateno;
    YYACTIONTYPE name = yy_find_shift_action(TOKEN_NAME, state);
    for (int wanted = 1; wanted < YYNTOKEN; wanted++) {
        YYACTIONTYPE action = yy_find_shift_action((YYCODETYPE)wanted, state);
        if (action != YY_ERROR_ACTION && (wanted == TOKEN_NAME || action != name))
            build_expected(build, wanted);
    }
    build_syntax_error_end(build);
}
%parse_failure { build_gave_up(build); }
%stack_overflow { build_nested_too_deep(build); }

%type value {struct expression *}
%type expr {struct expression *}
%type disj {struct expression *}
%type conj {struct expression *}
%type neg {struct expression *}
%type cmp {struct expression *}
%type lim {struct expression *}
%type sum {struct expression *}
%type prod {struct expression *}
%type off {struct expression *}
%type oth {struct expression *}
%type una {struct expression *}
%type per {struct expression *}
%type primary {struct expression *}
%type money {struct expression *}
%type qty {struct expression *}
%type lexpr {struct expression *}
%type grid_choice {struct expression *}
%type fend {struct field_end}
%type args {struct expression_list}
%type keys {struct expression_list}
%type texts {struct expression_list}
%type unit {struct tree_unit *}
%type cunit {struct tree_unit *}
%type type {struct tree_unit *}
%type fas {struct tree_unit *}
%type ffrom {struct span}
%type dir {enum tree_rounding}
%type sliced {bool}
%type names {struct word_list}
%type endings {struct word_list}
%type none {struct statement *}
%type stmt {struct statement *}
%type line {struct statement *}
%type chline {struct statement *}
%type mat {struct statement *}
%type field {struct statement *}
%type pline {struct statement *}
%type row {struct statement *}
%type step {struct statement *}
%type grid {struct grid}
%type goalline {struct statement *}
%type exline {struct statement *}
%type stmts {struct statement_list}
%type chlines {struct statement_list}
%type mats {struct statement_list}
%type fields {struct statement_list}
%type plines {struct statement_list}
%type rows {struct statement_list}
%type steps {struct statement_list}
%type goals {struct statement_list}
%type exlines {struct statement_list}
%type cells {struct cell_list}
%type cell {struct tree_cell *}
%type parts {struct part_list}
%type part {struct tree_part *}

// ---- what may be read: a file, one value, one list of parts ----

input ::= stmts(A).                         { build->statements = A.first; }
input ::= BEGIN_VALUE value(A) NL.          { build->value = A; }
input ::= BEGIN_PARTS parts(A) NL.          { build->parts = A.first; }

parts(A) ::= part(B).                       { A = build_parts(NULL, B); }
parts(A) ::= parts(B) PLUS part(C).         { A = build_parts(&B, C); }
part(A) ::= NAME(B) qty(C).                 { A = build_part(build, B, C); }
part(A) ::= NAME(B) NUMBER(C).  { A = build_part(build, B, build_literal(build, EXPRESSION_NUMBER, C)); }
part(A) ::= NAME(B) FRACTION(C) unit(D).    { A = build_part(build, B, build_fraction(build, C, D)); }

// ---- statements ----

// what every block may have between its lines: nothing, or a line that could not be read
none(A) ::= NL.                             { A = NULL; }
none(A) ::= error NL.                       { A = NULL; RECOVERED; }

stmts(A) ::= .                              { A = (struct statement_list){0}; }
stmts(A) ::= stmts(B) stmt(C).              { A = build_append(B, C); }
stmt(A) ::= none(B).                        { A = B; }
stmt(A) ::= CURRENCY(B) NAME(C) NL.         { A = build_currency(build, B, C, (struct span){0}); }
stmt(A) ::= CURRENCY(B) NAME(C) NAME(D) NL. { A = build_currency(build, B, C, D); }
stmt(A) ::= CURRENCY(B) NAME(C) SYMBOL(D) NL. { A = build_currency(build, B, C, D); }
stmt(A) ::= UNIT(B) NAME(C) NL.             { A = build_named(build, STATEMENT_UNIT, B, C, NULL); }
stmt(A) ::= UNIT(B) NAME(C) ASSIGN expr(D) NL. { A = build_named(build, STATEMENT_UNIT, B, C, D); }
stmt(A) ::= USE(B) TEXT(C) NL.              { A = build_texted(build, STATEMENT_USE, B, C, NULL); }
stmt(A) ::= MATERIALS(B) LB mats(C) RB NL.
        { A = build_block(build_line(build, STATEMENT_MATERIALS, B, NULL), C); }
stmt(A) ::= PRODUCT(B) LB fields(C) RB NL.
        { A = build_block(build_line(build, STATEMENT_PRODUCT, B, NULL), C); }
stmt(A) ::= RATE(B) NAME(C) ASSIGN value(D) NL. { A = build_named(build, STATEMENT_RATE, B, C, D); }
stmt(A) ::= ROUNDING(B) NAME(C) LB steps(D) RB NL.
        { A = build_block(build_named(build, STATEMENT_ROUNDING, B, C, NULL), D); }
stmt(A) ::= CHANNEL(B) NAME(C) LB chlines(D) RB NL.
        { A = build_block(build_named(build, STATEMENT_CHANNEL, B, C, NULL), D); }
stmt(A) ::= SAME_PRICE_ON(B) names(C) NL.
        { A = build_with_words(build_line(build, STATEMENT_SAME_PRICE, B, NULL), C); }
stmt(A) ::= GOAL(B) TEXT(C) LB goals(D) RB NL.
        { A = build_block(build_texted(build, STATEMENT_GOAL, B, C, NULL), D); }
stmt(A) ::= EXPECT(B) TEXT(C) LB exlines(D) RB NL.
        { A = build_block(build_texted(build, STATEMENT_EXPECT, B, C, NULL), D); }
stmt(A) ::= TABLE(B) NAME(C) BY keys(D) sliced(E) LB rows(F) RB NL.
                                            { A = build_table(build, B, C, D, E, F); }
stmt(A) ::= line(B).                        { A = B; }

line(A) ::= LET(B) NAME(C) ASSIGN expr(D) NL. { A = build_named(build, STATEMENT_LET, B, C, D); }
line(A) ::= LET(B) NAME(C) LP names(D) RP ASSIGN expr(E) NL. { A = build_function(build, B, C, D, E); }
line(A) ::= COST(B) NAME(C) ASSIGN expr(D) NL. { A = build_named(build, STATEMENT_COST, B, C, D); }
line(A) ::= PAY(B) NAME(C) ASSIGN expr(D) NL.  { A = build_named(build, STATEMENT_PAY, B, C, D); }
line(A) ::= FEE(B) NAME(C) ASSIGN expr(D) NL.  { A = build_named(build, STATEMENT_FEE, B, C, D); }
line(A) ::= BUYER_PAYS(B) NAME(C) ASSIGN expr(D) NL.
                                            { A = build_named(build, STATEMENT_BUYER_PAYS, B, C, D); }
line(A) ::= TAX(B) ADDED(C) expr(D) NL.
        { A = build_line(build, STATEMENT_TAX_ADDED, span_join(B, C), D); }
line(A) ::= TAX(B) INCLUDED(C) expr(D) NL.
        { A = build_line(build, STATEMENT_TAX_INCLUDED, span_join(B, C), D); }
line(A) ::= SHOW(B) NAME(C) NL.             { A = build_named(build, STATEMENT_SHOW, B, C, NULL); }
line(A) ::= SHOW(B) NAME(C) ASSIGN expr(D) NL. { A = build_named(build, STATEMENT_SHOW, B, C, D); }
line(A) ::= SHOW(B) NAME(C) AS cunit(D) ASSIGN expr(E) NL. { A = build_show(build, B, C, D, E); }
line(A) ::= WARN(B) TEXT(C) WHEN expr(D) NL.   { A = build_texted(build, STATEMENT_WARN, B, C, D); }
line(A) ::= REFUSE(B) TEXT(C) WHEN expr(D) NL. { A = build_texted(build, STATEMENT_REFUSE, B, C, D); }
line(A) ::= PRICE(B) LB plines(C) RB NL.
        { A = build_block(build_line(build, STATEMENT_PRICE, B, NULL), C); }

names(A) ::= NAME(B).                       { A = build_words(build, NULL, B); }
names(A) ::= names(B) COMMA NAME(C).        { A = build_words(build, &B, C); }

chlines(A) ::= .                            { A = (struct statement_list){0}; }
chlines(A) ::= chlines(B) chline(C).        { A = build_append(B, C); }
chline(A) ::= none(B).                      { A = B; }
chline(A) ::= line(B).                      { A = B; }
chline(A) ::= ONLY_WHEN(B) expr(C) NL.      { A = build_line(build, STATEMENT_ONLY_WHEN, B, C); }

mats(A) ::= .                               { A = (struct statement_list){0}; }
mats(A) ::= mats(B) mat(C).                 { A = build_append(B, C); }
mat(A) ::= none(B).                         { A = B; }
mat(A) ::= NAME(B) value(C) NL.             { A = build_material(build, B, C, NULL); }
mat(A) ::= NAME(B) value(C) WEIGHS expr(D) NL. { A = build_material(build, B, C, D); }

fields(A) ::= .                             { A = (struct statement_list){0}; }
fields(A) ::= fields(B) field(C).           { A = build_append(B, C); }
field(A) ::= none(B).                       { A = B; }
field(A) ::= NAME(B) type(C) fas(D) ffrom(E) fend(F) NL. { A = build_field(build, B, C, D, E, F); }
type(A) ::= NAME(B).                        { A = build_unit(build, B, (struct span){0}); }
type(A) ::= type(B) PER NAME(C).            { A = build_unit_per(build, B, build_unit(build, C, (struct span){0})); }
fas(A) ::= .                                { A = NULL; }
fas(A) ::= AS cunit(B).                     { A = B; }
ffrom(A) ::= .                              { A = (struct span){0}; }
ffrom(A) ::= FROM TEXT(B).                  { A = B; }
fend(A) ::= .                               { A = (struct field_end){0}; }
fend(A) ::= OPTIONAL.                       { A = (struct field_end){.optional = true}; }
fend(A) ::= ASSIGN value(B).                { A = (struct field_end){.value = B}; }

plines(A) ::= .                             { A = (struct statement_list){0}; }
plines(A) ::= plines(B) pline(C).           { A = build_append(B, C); }
pline(A) ::= none(B).                       { A = B; }
pline(A) ::= AIM(B) expr(C) NL.             { A = build_line(build, STATEMENT_AIM, B, C); }
pline(A) ::= SET(B) expr(C) NL.             { A = build_line(build, STATEMENT_SET, B, C); }
pline(A) ::= FLOOR(B) lexpr(C) NL.          { A = build_line(build, STATEMENT_FLOOR, B, C); }
pline(A) ::= CEILING(B) lexpr(C) NL.        { A = build_line(build, STATEMENT_CEILING, B, C); }
pline(A) ::= DISCOUNT(B) lexpr(C) NL.       { A = build_line(build, STATEMENT_DISCOUNT, B, C); }
pline(A) ::= PIN(B) lexpr(C) NL.            { A = build_line(build, STATEMENT_PIN, B, C); }
pline(A) ::= ROUND(B) dir(C) grid_choice(D) NL. { A = build_round(build, B, C, D); }
lexpr(A) ::= NONE.                          { A = NULL; }
lexpr(A) ::= expr(B).                       { A = B; }
grid_choice(A) ::= NAME(B).                 { A = build_literal(build, EXPRESSION_NAME, B); }
grid_choice(A) ::= money(B).                { A = B; }
grid_choice(A) ::= qty(B).                  { A = B; }
dir(A) ::= UP_TO.                           { A = ROUNDING_UP; }
dir(A) ::= DOWN_TO.                         { A = ROUNDING_DOWN; }
dir(A) ::= NEAREST_TO.                      { A = ROUNDING_NEAREST; }
dir(A) ::= EVEN_TO.                         { A = ROUNDING_EVEN; }
dir(A) ::= TO.                              { A = ROUNDING_PLAIN; }

sliced(A) ::= .                             { A = false; }
sliced(A) ::= SLICED.                       { A = true; }
keys(A) ::= lim(B).                         { A = build_expressions(NULL, B); }
keys(A) ::= keys(B) COMMA lim(C).           { A = build_expressions(&B, C); }
rows(A) ::= .                               { A = (struct statement_list){0}; }
rows(A) ::= rows(B) row(C).                 { A = build_append(B, C); }
row(A) ::= none(B).                         { A = B; }
row(A) ::= cells(B) COLON expr(C) NL.       { A = build_row(build, B, C); }
row(A) ::= OTHERWISE(B) COLON expr(C) NL.   { A = build_line(build, STATEMENT_ROW, B, C); }
cells(A) ::= cell(B).                       { A = build_cells(NULL, B); }
cells(A) ::= cells(B) COMMA cell(C).        { A = build_cells(&B, C); }
cell(A) ::= UP_TO(B) lim(C).                { A = build_cell(build, CELL_UP_TO, B, C, NULL); }
cell(A) ::= BELOW(B) lim(C).                { A = build_cell(build, CELL_BELOW, B, C, NULL); }
cell(A) ::= OVER(B) lim(C).                 { A = build_cell(build, CELL_OVER, B, C, NULL); }
cell(A) ::= lim(B) OR_MORE(C).              { A = build_cell(build, CELL_OR_MORE, C, B, NULL); }
cell(A) ::= lim(B) TO(C) lim(D).            { A = build_cell(build, CELL_RANGE, C, B, D); }
cell(A) ::= lim(B).                         { A = build_cell(build, CELL_VALUE, B->span, B, NULL); }
cell(A) ::= texts(B).                       { A = build_cell(build, CELL_TEXTS, B.first->span, B.first, NULL); }
cell(A) ::= ANY(B).                         { A = build_cell(build, CELL_ANY, B, NULL, NULL); }
texts(A) ::= TEXT(B) OR TEXT(C).            { A = build_texts(build, B, C); }
texts(A) ::= texts(B) OR TEXT(C).           { A = build_expressions(&B, build_literal(build, EXPRESSION_TEXT, C)); }

steps(A) ::= .                              { A = (struct statement_list){0}; }
steps(A) ::= steps(B) step(C).              { A = build_append(B, C); }
step(A) ::= none(B).                        { A = B; }
step(A) ::= BELOW(B) lim(C) COLON grid(D) NL. { A = build_band(build, B, C, D); }
step(A) ::= OTHERWISE(B) COLON grid(C) NL.  { A = build_band(build, B, NULL, C); }
grid(A) ::= EVERY lim(B).                   { A = (struct grid){.every = B}; }
grid(A) ::= ENDS_IN endings(B).             { A = (struct grid){.endings = B.first}; }
endings(A) ::= NUMBER(B).                   { A = build_words(build, NULL, B); }
endings(A) ::= endings(B) OR NUMBER(C).     { A = build_words(build, &B, C); }

goals(A) ::= .                              { A = (struct statement_list){0}; }
goals(A) ::= goals(B) goalline(C).          { A = build_append(B, C); }
goalline(A) ::= none(B).                    { A = B; }
goalline(A) ::= NEEDS(B) expr(C) NL.        { A = build_line(build, STATEMENT_NEEDS, B, C); }
goalline(A) ::= GIVES(B) expr(C) NL.        { A = build_line(build, STATEMENT_GIVES, B, C); }
goalline(A) ::= TAKES(B) expr(C) NL.        { A = build_line(build, STATEMENT_TAKES, B, C); }
goalline(A) ::= HAS(B) expr(C) NL.          { A = build_line(build, STATEMENT_HAS, B, C); }

exlines(A) ::= .                            { A = (struct statement_list){0}; }
exlines(A) ::= exlines(B) exline(C).        { A = build_append(B, C); }
exline(A) ::= none(B).                      { A = B; }
exline(A) ::= ON(B) NAME(C) NL.             { A = build_named(build, STATEMENT_ON, B, C, NULL); }
exline(A) ::= THEN(B) expr(C) NL.           { A = build_line(build, STATEMENT_THEN, B, C); }
exline(A) ::= THEN(B) REFUSED NL.           { A = build_line(build, STATEMENT_THEN_REFUSED, B, NULL); }
exline(A) ::= THEN(B) WARNED TEXT(C) NL.    { A = build_texted(build, STATEMENT_THEN_WARNED, B, C, NULL); }
exline(A) ::= THEN(B) ERROR NL.             { A = build_line(build, STATEMENT_THEN_ERROR, B, NULL); }
exline(A) ::= NAME(B) ASSIGN expr(C) NL.    { A = build_named(build, STATEMENT_GIVEN, B, B, C); }

// ---- what is a value of its own, and may be a range ----

value(A) ::= expr(B).                       { A = B; }
value(A) ::= lim(B) TO lim(C).              { A = build_range(build, B, C, NULL); }
value(A) ::= lim(B) TO lim(C) LIKELY lim(D). { A = build_range(build, B, C, D); }

// ---- expressions, loosest first ----

expr(A) ::= IF(B) expr(C) THEN expr(D) ELSE expr(E). { A = build_if(build, B, C, D, E); }
expr(A) ::= disj(B).                        { A = B; }
disj(A) ::= disj(B) OR conj(C).             { A = build_two(build, EXPRESSION_OR, B, C); }
disj(A) ::= conj(B).                        { A = B; }
conj(A) ::= conj(B) AND neg(C).             { A = build_two(build, EXPRESSION_AND, B, C); }
conj(A) ::= neg(B).                         { A = B; }
neg(A) ::= NOT(B) neg(C).                   { A = build_before(build, EXPRESSION_NOT, B, C); }
neg(A) ::= cmp(B).                          { A = B; }
cmp(A) ::= lim(B) ASSIGN lim(C).            { A = build_two(build, EXPRESSION_EQUAL, B, C); }
cmp(A) ::= lim(B) NE lim(C).                { A = build_two(build, EXPRESSION_UNEQUAL, B, C); }
cmp(A) ::= lim(B) LT lim(C).                { A = build_two(build, EXPRESSION_BELOW, B, C); }
cmp(A) ::= lim(B) LE lim(C).                { A = build_two(build, EXPRESSION_UP_TO, B, C); }
cmp(A) ::= lim(B) GT lim(C).                { A = build_two(build, EXPRESSION_ABOVE, B, C); }
cmp(A) ::= lim(B) GE lim(C).                { A = build_two(build, EXPRESSION_NOT_BELOW, B, C); }
cmp(A) ::= lim(B) BETWEEN lim(C) AND lim(D). { A = build_between(build, B, C, D); }
cmp(A) ::= lim(B) IS_MISSING(C).            { A = build_after(build, EXPRESSION_IS_MISSING, B, C); }
cmp(A) ::= lim(B).                          { A = B; }
lim(A) ::= lim(B) AT_LEAST prod(C).         { A = build_two(build, EXPRESSION_AT_LEAST, B, C); }
lim(A) ::= lim(B) AT_MOST prod(C).          { A = build_two(build, EXPRESSION_AT_MOST, B, C); }
lim(A) ::= lim(B) ROUNDED dir(C) primary(D). { A = build_rounded(build, C, B, D); }
lim(A) ::= lim(B) ROUNDED_TO primary(C).    { A = build_rounded(build, ROUNDING_PLAIN, B, C); }
lim(A) ::= lim(B) AS cunit(C).              { A = build_as(build, B, C); }
lim(A) ::= sum(B).                          { A = B; }
sum(A) ::= prod(B).                         { A = B; }
sum(A) ::= sum(B) PLUS prod(C).             { A = build_two(build, EXPRESSION_ADD, B, C); }
sum(A) ::= sum(B) MINUS prod(C).            { A = build_two(build, EXPRESSION_SUBTRACT, B, C); }
prod(A) ::= off(B).                         { A = B; }
prod(A) ::= prod(B) STAR off(C).            { A = build_two(build, EXPRESSION_MULTIPLY, B, C); }
prod(A) ::= prod(B) SLASH off(C).           { A = build_two(build, EXPRESSION_DIVIDE, B, C); }
prod(A) ::= prod(B) MARKED_UP off(C).       { A = build_two(build, EXPRESSION_MARKED_UP, B, C); }
prod(A) ::= prod(B) MARKED_DOWN off(C).     { A = build_two(build, EXPRESSION_MARKED_DOWN, B, C); }
prod(A) ::= prod(B) AT_MARGIN off(C).       { A = build_two(build, EXPRESSION_AT_MARGIN, B, C); }
prod(A) ::= prod(B) ALLOWING off(C) LOST(D). { A = build_allowing(build, B, C, D); }
off(A) ::= oth(B).                          { A = B; }
off(A) ::= oth(B) OF off(C).                { A = build_two(build, EXPRESSION_OF, B, C); }
oth(A) ::= una(B).                          { A = B; }
oth(A) ::= oth(B) OTHERWISE una(C).         { A = build_two(build, EXPRESSION_OTHERWISE, B, C); }
una(A) ::= MINUS(B) una(C).                 { A = build_before(build, EXPRESSION_NEGATE, B, C); }
una(A) ::= per(B).                          { A = B; }
per(A) ::= primary(B).                      { A = B; }
per(A) ::= per(B) PER unit(C).              { A = build_per(build, B, (struct span){0}, C); }
per(A) ::= per(B) PER NUMBER(C).            { A = build_per(build, B, C, NULL); }
per(A) ::= per(B) PER NUMBER(C) unit(D).    { A = build_per(build, B, C, D); }
per(A) ::= per(B) EACH(C).                  { A = build_after(build, EXPRESSION_EACH, B, C); }
per(A) ::= per(B) PER_ORDER(C).             { A = build_after(build, EXPRESSION_PER_ORDER, B, C); }
primary(A) ::= NAME(B).                     { A = build_literal(build, EXPRESSION_NAME, B); }
primary(A) ::= NAME(B) LP args(C) RP(D).    { A = build_call(build, B, C, D); }
primary(A) ::= NAME(B) ON NAME(C).          { A = build_on(build, B, C); }
primary(A) ::= WORTH_OF(B) NAME(C).         { A = build_worth(build, B, C); }
primary(A) ::= qty(B).                      { A = B; }
primary(A) ::= money(B).                    { A = B; }
primary(A) ::= NUMBER(B).                   { A = build_literal(build, EXPRESSION_NUMBER, B); }
primary(A) ::= FRACTION(B) unit(C).         { A = build_fraction(build, B, C); }
primary(A) ::= PERCENT(B).                  { A = build_literal(build, EXPRESSION_PERCENT, B); }
primary(A) ::= TEXT(B).                     { A = build_literal(build, EXPRESSION_TEXT, B); }
primary(A) ::= DATE(B).                     { A = build_literal(build, EXPRESSION_DATE, B); }
primary(A) ::= YES(B).                      { A = build_literal(build, EXPRESSION_YES, B); }
primary(A) ::= NO(B).                       { A = build_literal(build, EXPRESSION_NO, B); }
primary(A) ::= LP(B) expr(C) RP(D).         { A = build_group(build, B, C, D); }
money(A) ::= SYMBOL(B) NUMBER(C).           { A = build_money(build, B, C); }
money(A) ::= NUMBER(B) SYMBOL(C).           { A = build_money(build, C, B); }
money(A) ::= NAME(B) NUMBER(C).             { A = build_money(build, B, C); }
qty(A) ::= NUMBER(B) unit(C).               { A = build_quantity(build, NULL, B, C); }
qty(A) ::= qty(B) NUMBER(C) unit(D).        { A = build_quantity(build, B, C, D); }
args(A) ::= expr(B).                        { A = build_expressions(NULL, B); }
args(A) ::= args(B) COMMA expr(C).          { A = build_expressions(&B, C); }
unit(A) ::= NAME(B).                        { A = build_unit(build, B, (struct span){0}); }
unit(A) ::= NAME(B) CARET NUMBER(C).        { A = build_unit(build, B, C); }
cunit(A) ::= unit(B).                       { A = B; }
cunit(A) ::= cunit(B) PER unit(C).          { A = build_unit_per(build, B, C); }

// ---- the parser's face (parser.h) ----

%code {
#include "parser.h"

_Static_assert(TOKENS_COUNT == YYNTOKEN, "every token stands in the list of token.h");

size_t parser_size(void)
{
    return sizeof(yyParser);
}

void parser_begin(void *room, struct build *build)
{
    grammar_Init(room, build);
}

void parser_feed(void *room, int kind, struct span token)
{
    grammar_(room, kind, token);
}

void parser_end(void *room)
{
    grammar_Finalize(room);
}
}
