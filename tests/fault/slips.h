/* SLIP(sentence, what must hold): included twice by stranger_test.c, so it has no guard. */

/* ---- reading rules ---- */

SLIP(rules_without_a_text_are_refused,
     reads_none(desk, read_text(desk, (groat_text){NULL, 12}, NULL), "no text"))
SLIP(rules_longer_than_the_limit_are_refused,
     reads_none(desk, read_text(desk, (groat_text){shop_rules, SIZE_MAX}, NULL), "larger than"))
SLIP(rules_without_a_name_are_read,
     reads(groat_method_read(NULL, (groat_text){shop_rules, strlen(shop_rules)}, NULL,
                             &desk->report)) &&
         (groat_report_free(desk->report), true))
SLIP(whoever_wants_no_report_gets_none,
     reads(groat_method_read("shop.rules", (groat_text){shop_rules, strlen(shop_rules)}, NULL,
                             NULL)))
SLIP(an_allocator_without_a_function_is_the_c_librarys,
     reads(read_shop(desk, &(groat_reading){.allocator = &(groat_allocator){NULL, NULL}})) &&
         (groat_report_free(desk->report), true))
SLIP(a_loader_that_gives_no_name_loads_nothing,
     reads_none(desk, read_use(desk, NULL), "more.rules"))
SLIP(a_loader_that_gives_no_text_loads_nothing,
     reads_none(desk, read_use(desk, "more.rules"), "more.rules"))
SLIP(limits_of_zero_are_an_error_of_the_rules,
     reads_none(desk, read_shop(desk, &(groat_reading){.limits = &(groat_limits){0}}), ""))
SLIP(a_number_limit_beyond_the_most_is_the_most,
     reads(read_shop(desk,
                     &(groat_reading){.limits = &(groat_limits){SIZE_MAX, 200, SIZE_MAX, SIZE_MAX,
                                                                SIZE_MAX, SIZE_MAX, SIZE_MAX,
                                                                SIZE_MAX, SIZE_MAX}})) &&
         (groat_report_free(desk->report), true))
SLIP(a_method_that_is_none_may_be_freed, (groat_method_free(NULL), true))

/* ---- tidying ---- */

SLIP(a_tidying_without_a_text_is_refused,
     tidies_none(desk, groat_tidy("shop.rules", (groat_text){NULL, 3}, NULL, &desk->report),
                 "no text"))
SLIP(a_tidying_without_a_name_is_done,
     groat_tidy(NULL, (groat_text){"x", SIZE_MAX}, NULL, NULL) == NULL)
SLIP(nothing_tidied_has_an_empty_text,
     groat_tidied_text(NULL).length == 0 && groat_tidied_text(NULL).start[0] == '\0')
SLIP(nothing_tidied_may_be_freed, (groat_tidied_free(NULL), true))

/* ---- reports ---- */

SLIP(no_report_has_no_items, groat_report_count(NULL) == 0 && groat_report_errors(NULL) == 0)
SLIP(no_report_has_no_first_item, groat_report_at(NULL, 0) == NULL)
SLIP(a_report_ends_after_its_last_item, reports_end(desk))
SLIP(no_report_may_be_freed, (groat_report_free(NULL), true))
SLIP(no_diagnostic_writes_an_empty_text,
     is_empty(desk, groat_diagnostic_write(NULL, desk->text, sizeof desk->text)))
SLIP(a_diagnostic_without_texts_is_written,
     groat_diagnostic_write(&(groat_diagnostic){0}, desk->text, sizeof desk->text) > 0)
SLIP(a_diagnostic_written_nowhere_has_its_length,
     groat_diagnostic_write(&(groat_diagnostic){.message = "m"}, NULL, 100) ==
         groat_diagnostic_write(&(groat_diagnostic){.message = "m"}, NULL, 0))
SLIP(no_method_is_checked_with_no_report,
     (desk->count = 7, groat_method_check(NULL, &desk->count)) == NULL && desk->count == 0)

/* ---- other rates ---- */

SLIP(no_method_has_no_other_rates,
     makes_none(desk, groat_method_with_rates(NULL, NULL, 0, &desk->trouble), "method"))
SLIP(rates_that_are_none_but_counted_are_refused,
     makes_none(desk, groat_method_with_rates(desk->method, NULL, 2, &desk->trouble), "rates"))
SLIP(more_rates_than_memory_holds_are_refused,
     makes_none(desk,
                groat_method_with_rates(desk->method, &(groat_rate_value){.rate = "hourly"},
                                        SIZE_MAX, &desk->trouble),
                "rates"))
SLIP(a_rate_without_a_name_is_refused,
     makes_none(desk, with_rate(desk, (groat_rate_value){.value = "$3 per h"}), "name"))
SLIP(a_rate_without_a_value_is_refused,
     makes_none(desk, with_rate(desk, (groat_rate_value){.rate = "hourly"}), "needs a value"))
SLIP(a_rate_of_an_empty_text_is_refused,
     makes_none(desk, with_rate(desk, (groat_rate_value){.rate = "hourly", .value = ""}),
                "needs a value"))
SLIP(a_way_of_no_parts_is_refused,
     makes_none(desk, with_rate(desk, (groat_rate_value){"hourly", "$1 per h", "$2 per h", 1, 0}),
                "number of steps"))
SLIP(a_way_of_negative_parts_is_refused,
     makes_none(desk,
                with_rate(desk, (groat_rate_value){"hourly", "$1 per h", "$2 per h", 1, INT64_MIN}),
                "number of steps"))
SLIP(a_way_of_the_least_number_of_parts_is_gone,
     reads(with_rate(desk, (groat_rate_value){"hourly", "$1 per h", "$2 per h", INT64_MIN, 1})))
SLIP(a_way_to_an_empty_text_is_refused,
     makes_none(desk, with_rate(desk, (groat_rate_value){"hourly", "$1 per h", "", 1, 2}),
                "needs a value"))
SLIP(wrong_rates_need_no_trouble, !groat_method_with_rates(desk->method, NULL, 2, NULL) &&
                                      !groat_method_with_rates(NULL, NULL, 0, NULL))
SLIP(no_method_is_leaned,
     makes_none(desk, groat_method_leaned(NULL, NULL, 0, &desk->trouble), "method"))
SLIP(leans_that_are_none_but_counted_are_refused,
     makes_none(desk, groat_method_leaned(desk->method, NULL, 3, &desk->trouble), "leans"))
SLIP(more_leans_than_memory_holds_are_refused,
     makes_none(desk,
                groat_method_leaned(desk->method, &(groat_lean){0, GROAT_LOW}, SIZE_MAX,
                                    &desk->trouble),
                "leans"))
SLIP(a_rate_beyond_the_last_is_not_leaned, makes_none(desk, leaned(desk, 2, GROAT_LOW), "rate"))
SLIP(a_rate_that_was_not_found_is_not_leaned,
     makes_none(desk, leaned(desk, SIZE_MAX, GROAT_LOW), "rate"))
SLIP(an_end_that_is_none_is_not_leaned_to, makes_none(desk, leaned(desk, 0, 3), "end"))
SLIP(an_end_below_the_first_is_not_leaned_to, makes_none(desk, leaned(desk, 0, -1), "end"))

/* ---- what a method needs and offers ---- */

SLIP(no_method_has_no_currency,
     groat_method_currency(NULL).code[0] == '\0' && groat_method_currency(NULL).symbol[0] == '\0')
SLIP(no_method_offers_anything, groat_method_fields(NULL) + groat_method_rates(NULL) +
                                        groat_method_channels(NULL) + groat_method_shows(NULL) +
                                        groat_method_goals(NULL) + groat_method_names(NULL) ==
                                    0)
SLIP(no_method_has_no_field, is_blank_field(groat_method_field(NULL, 0)))
SLIP(a_field_beyond_the_last_is_blank,
     is_blank_field(groat_method_field(desk->method, groat_method_fields(desk->method))))
SLIP(a_field_that_was_not_found_is_blank,
     is_blank_field(groat_method_field(desk->method, groat_method_find_field(desk->method, "x"))))
SLIP(no_method_has_no_field_of_a_name, groat_method_find_field(NULL, "name") == SIZE_MAX)
SLIP(no_name_is_no_fields, groat_method_find_field(desk->method, NULL) == SIZE_MAX)
SLIP(no_method_has_no_rate, is_blank_rate(groat_method_rate(NULL, 0)))
SLIP(a_rate_beyond_the_last_is_blank, is_blank_rate(groat_method_rate(desk->method, 2)))
SLIP(a_rate_that_was_not_found_is_blank, is_blank_rate(groat_method_rate(desk->method, SIZE_MAX)))
SLIP(no_method_has_no_value_of_a_rate, is_missing(groat_method_rate_value(NULL, 0)))
SLIP(a_rate_beyond_the_last_has_no_value, is_missing(groat_method_rate_value(desk->method, 2)))
SLIP(a_rate_that_was_not_found_has_no_value,
     is_missing(groat_method_rate_value(desk->method, SIZE_MAX)))
SLIP(no_method_has_no_amount_of_a_rate,
     is_empty(desk, groat_method_rate_amount(NULL, 0, desk->text, sizeof desk->text)))
SLIP(a_rate_beyond_the_last_has_no_amount,
     is_empty(desk, groat_method_rate_amount(desk->method, 2, desk->text, sizeof desk->text)))
SLIP(a_rates_amount_written_nowhere_has_its_length,
     groat_method_rate_amount(desk->method, 0, NULL, 64) ==
         groat_method_rate_amount(desk->method, 0, desk->text, sizeof desk->text))
SLIP(no_method_has_no_range_of_a_rate, !groat_method_rate_range(NULL, 0, &desk->range))
SLIP(a_rate_beyond_the_last_has_no_range,
     !groat_method_rate_range(desk->method, SIZE_MAX, &desk->range))
SLIP(no_method_has_no_channel, groat_method_channel(NULL, 0) == NULL)
SLIP(a_channel_beyond_the_last_has_no_name, groat_method_channel(desk->method, 2) == NULL)
SLIP(a_channel_that_was_not_found_has_no_name,
     groat_method_channel(desk->method, groat_method_find_channel(desk->method, "fair")) == NULL)
SLIP(no_method_has_no_channel_of_a_name, groat_method_find_channel(NULL, "stall") == SIZE_MAX)
SLIP(no_name_is_no_channels, groat_method_find_channel(desk->method, NULL) == SIZE_MAX)
SLIP(no_method_has_no_show, is_blank_column(groat_method_show(NULL, 0)))
SLIP(a_show_beyond_the_last_is_blank, is_blank_column(groat_method_show(desk->method, 1)))
SLIP(a_show_that_was_not_found_is_blank, is_blank_column(groat_method_show(desk->method, SIZE_MAX)))
SLIP(no_method_has_no_goal, is_blank_goal(groat_method_goal(NULL, 0)))
SLIP(a_goal_beyond_the_last_is_blank, is_blank_goal(groat_method_goal(desk->method, 1)))
SLIP(a_goal_that_was_not_found_is_blank, is_blank_goal(groat_method_goal(desk->method, SIZE_MAX)))
SLIP(no_method_has_no_limit_of_a_goal,
     groat_method_goal_limit(NULL, 0, &(groat_limit){.amount = "x"}) == GROAT_BAD_VALUE)
SLIP(a_goal_beyond_the_last_has_no_limit,
     groat_method_goal_limit(desk->method, 1, &(groat_limit){.amount = "x"}) == GROAT_BAD_VALUE)
SLIP(no_room_is_no_limit_of_a_goal,
     groat_method_goal_limit(desk->method, 0, NULL) == GROAT_BAD_VALUE)
SLIP(no_method_has_no_name, groat_method_name(NULL, 0) == NULL)
SLIP(a_name_beyond_the_last_is_none,
     groat_method_name(desk->method, groat_method_names(desk->method)) == NULL)
SLIP(a_name_that_was_not_found_is_none, groat_method_name(desk->method, SIZE_MAX) == NULL)
SLIP(no_text_is_no_date, !groat_date_valid(NULL))
SLIP(no_text_is_no_currency, groat_currency_decimals(NULL) == -1)

/* ---- records ---- */

SLIP(no_method_has_no_record, groat_record_new(NULL) == NULL)
SLIP(no_record_may_be_freed, (groat_record_free(NULL), true))
SLIP(no_record_may_be_cleared, (groat_record_clear(NULL), true))
SLIP(no_record_takes_a_cell,
     refuses(desk, groat_record_set(NULL, 0, (groat_text){"b", 1}, NULL, &desk->trouble), "record"))
SLIP(a_field_beyond_the_last_takes_no_cell,
     refuses(desk,
             groat_record_set(desk->record, groat_method_fields(desk->method), (groat_text){"b", 1},
                              NULL, &desk->trouble),
             "field"))
SLIP(a_field_that_was_not_found_takes_no_cell,
     refuses(desk, set_cell(desk->record, desk->method, "nmae", "b", &desk->trouble), "field"))
SLIP(a_field_of_other_rules_takes_no_cell,
     refuses(desk,
             groat_record_set(desk->small_record, field_of(desk, "bench"), (groat_text){"b", 1},
                              NULL, &desk->trouble),
             "field"))
SLIP(a_wrong_field_needs_no_trouble,
     groat_record_set(desk->record, SIZE_MAX, (groat_text){"b", 1}, NULL, NULL) == GROAT_BAD_VALUE)
SLIP(a_cell_with_a_length_and_no_text_is_refused,
     refuses(desk, groat_record_set(desk->record, 0, (groat_text){NULL, 4}, NULL, &desk->trouble),
             "no text"))
SLIP(a_cell_without_length_or_text_is_empty,
     groat_record_set(desk->record, field_of(desk, "seen"), (groat_text){NULL, 0}, NULL,
                      &desk->trouble) == GROAT_OK)
SLIP(a_wrong_cell_needs_no_trouble,
     set_cell(desk->record, desk->method, "timber", "?", NULL) == GROAT_BAD_VALUE)
SLIP(no_record_takes_a_fraction,
     refuses(desk, groat_record_set_fraction(NULL, 0, 1, 1, &desk->trouble), "record"))
SLIP(a_field_beyond_the_last_takes_no_fraction,
     refuses(desk,
             groat_record_set_fraction(desk->record, groat_method_fields(desk->method), 1, 1,
                                       &desk->trouble),
             "field"))
SLIP(a_field_that_was_not_found_takes_no_fraction,
     refuses(desk, groat_record_set_fraction(desk->record, SIZE_MAX, 1, 1, &desk->trouble),
             "field"))
SLIP(a_fraction_over_zero_is_refused, refuses(desk, set_fraction(desk, "timber", 1, 0), "fraction"))
SLIP(a_fraction_over_less_than_zero_is_refused,
     refuses(desk, set_fraction(desk, "timber", 1, -2), "fraction"))
SLIP(a_fraction_over_the_least_number_is_refused,
     refuses(desk, set_fraction(desk, "timber", 1, INT64_MIN), "fraction"))
SLIP(a_measure_below_zero_is_refused,
     refuses(desk, set_fraction(desk, "timber", -1, 2), "below zero"))
SLIP(a_measure_of_the_least_number_is_refused,
     refuses(desk, set_fraction(desk, "bench", INT64_MIN, 1), "below zero"))
SLIP(money_may_be_the_least_number, set_fraction(desk, "seen", INT64_MIN, 1) == GROAT_OK)
SLIP(half_a_piece_is_no_count, refuses(desk, set_fraction(desk, "batch", 1, 2), "count"))
SLIP(a_count_below_zero_is_refused, refuses(desk, set_fraction(desk, "batch", -1, 1), "count"))
SLIP(a_flag_of_two_is_refused, refuses(desk, set_fraction(desk, "fragile", 2, 1), "flag"))
SLIP(a_text_is_no_fraction, refuses(desk, set_fraction(desk, "name", 1, 1), "fraction"))
SLIP(a_date_is_no_fraction, refuses(desk, set_fraction(desk, "made_on", 1, 1), "fraction"))
SLIP(parts_are_no_fraction, refuses(desk, set_fraction(desk, "uses", 1, 1), "fraction"))
SLIP(a_wrong_fraction_needs_no_trouble,
     groat_record_set_fraction(desk->record, 0, 1, 0, NULL) == GROAT_BAD_VALUE)
SLIP(no_record_has_a_range, !groat_record_range(NULL, 0, &desk->range))
SLIP(a_field_beyond_the_last_has_no_range,
     !groat_record_range(desk->record, groat_method_fields(desk->method), &desk->range))
SLIP(a_field_that_was_not_found_has_no_range,
     !groat_record_range(desk->record, SIZE_MAX, &desk->range))
SLIP(no_record_is_leaned, (groat_record_lean(NULL, 0, GROAT_LOW), true))
SLIP(a_field_beyond_the_last_is_not_leaned,
     (groat_record_lean(desk->record, groat_method_fields(desk->method), GROAT_LOW), true))
SLIP(a_field_that_was_not_found_is_not_leaned,
     (groat_record_lean(desk->record, SIZE_MAX, GROAT_LOW), true))
SLIP(no_record_misses_no_field, groat_record_missing(NULL) == SIZE_MAX)

/* ---- pricing ---- */

SLIP(no_method_has_no_scratch, groat_scratch_new(NULL) == NULL)
SLIP(no_scratch_may_be_freed, (groat_scratch_free(NULL), true))
SLIP(no_scratch_prices_nothing,
     groat_price(NULL, desk->method, desk->record, &desk->order) == GROAT_FAILED)
SLIP(no_method_prices_nothing,
     fails(desk->scratch, groat_price(desk->scratch, NULL, desk->record, &desk->order), "method"))
SLIP(no_record_is_not_priced,
     fails(desk->scratch, groat_price(desk->scratch, desk->method, NULL, &desk->order), "record"))
SLIP(no_order_is_not_priced,
     fails(desk->scratch, groat_price(desk->scratch, desk->method, desk->record, NULL), "order"))
SLIP(a_channel_beyond_the_last_has_no_price,
     fails(desk->scratch, price_order(desk, 2, 1, NULL), "channel"))
SLIP(a_channel_that_was_not_found_has_no_price,
     fails(desk->scratch,
           price_order(desk, groat_method_find_channel(desk->method, "fair"), 1, NULL), "channel"))
SLIP(no_pieces_have_no_price, fails(desk->scratch, price_order(desk, 0, 0, NULL), "quantity"))
SLIP(fewer_than_no_pieces_have_no_price,
     fails(desk->scratch, price_order(desk, 0, -1, NULL), "quantity"))
SLIP(the_least_number_of_pieces_has_no_price,
     fails(desk->scratch, price_order(desk, 0, INT64_MIN, NULL), "quantity"))
SLIP(the_greatest_number_of_pieces_has_a_price,
     price_order(desk, 0, INT64_MAX, NULL) == GROAT_PRICED)
SLIP(an_empty_date_has_no_price, fails(desk->scratch, price_order(desk, 0, 1, ""), "date"))
SLIP(a_day_that_is_none_has_no_price,
     fails(desk->scratch, price_order(desk, 0, 1, "2027-02-30"), "date"))
SLIP(a_date_in_words_has_no_price, fails(desk->scratch, price_order(desk, 0, 1, "today"), "date"))
SLIP(a_refused_order_forgets_the_last_price, forgets_the_last_price(desk))
SLIP(a_scratch_kept_when_rules_are_read_again_prices_nothing,
     prices(desk) && prices_edited_rules_with(desk, desk->scratch, desk->edited_record, "scratch"))
SLIP(a_record_kept_when_rules_are_read_again_is_not_priced,
     prices_edited_rules_with(desk, desk->edited_scratch, desk->record, "record"))
SLIP(a_scratch_and_a_record_kept_price_nothing,
     prices_edited_rules_with(desk, desk->scratch, desk->record, "scratch"))
SLIP(a_method_kept_when_rules_are_read_again_prices_nothing,
     fails(desk->edited_scratch,
           groat_price(desk->edited_scratch, desk->method, desk->edited_record, &desk->order),
           "scratch"))
SLIP(a_scratch_of_smaller_rules_prices_nothing,
     fails(desk->small_scratch,
           groat_price(desk->small_scratch, desk->method, desk->record, &desk->order), "scratch"))
SLIP(a_record_of_smaller_rules_is_not_priced,
     fails(desk->scratch,
           groat_price(desk->scratch, desk->method, desk->small_record, &desk->order), "record"))

/* ---- what else is asked of a price ---- */

SLIP(no_method_reads_no_money,
     refuses(desk,
             groat_money_read(NULL, (groat_text){"$5", 2}, NULL, &desk->coins, &desk->trouble),
             "method"))
SLIP(money_without_a_text_is_refused, refuses(desk,
                                              groat_money_read(desk->method, (groat_text){NULL, 2},
                                                               NULL, &desk->coins, &desk->trouble),
                                              "no text"))
SLIP(money_read_to_nowhere_is_refused,
     refuses(desk,
             groat_money_read(desk->method, (groat_text){"$5", 2}, NULL, NULL, &desk->trouble),
             "nowhere"))
SLIP(wrong_money_needs_no_trouble, groat_money_read(desk->method, (groat_text){"?", 1}, NULL,
                                                    &desk->coins, NULL) == GROAT_BAD_VALUE)
SLIP(no_scratch_prices_at_nothing_given,
     groat_price_at(NULL, desk->method, desk->record, &desk->order, 100) == GROAT_FAILED)
SLIP(no_method_prices_at_nothing_given,
     fails(desk->scratch, groat_price_at(desk->scratch, NULL, desk->record, &desk->order, 100),
           "method"))
SLIP(no_record_is_not_priced_at_what_is_given,
     fails(desk->scratch, groat_price_at(desk->scratch, desk->method, NULL, &desk->order, 100),
           "record"))
SLIP(no_order_is_not_priced_at_what_is_given,
     fails(desk->scratch, groat_price_at(desk->scratch, desk->method, desk->record, NULL, 100),
           "order"))
SLIP(nothing_is_given_away,
     fails(desk->scratch,
           groat_price_at(desk->scratch, desk->method, desk->record, &desk->order, 0),
           "above zero"))
SLIP(a_price_below_zero_is_refused,
     fails(desk->scratch,
           groat_price_at(desk->scratch, desk->method, desk->record, &desk->order, INT64_MIN),
           "above zero"))
SLIP(a_price_beyond_all_is_refused,
     fails(desk->scratch,
           groat_price_at(desk->scratch, desk->method, desk->record, &desk->order, INT64_MAX),
           "price"))
SLIP(a_foreign_scratch_prices_at_nothing_given,
     fails(desk->small_scratch,
           groat_price_at(desk->small_scratch, desk->method, desk->record, &desk->order, 100),
           "scratch"))
SLIP(no_scratch_knows_no_loss,
     groat_price_without_loss(NULL, desk->method, desk->record, &desk->order) == GROAT_FAILED)
SLIP(a_foreign_scratch_knows_no_loss,
     fails(desk->small_scratch,
           groat_price_without_loss(desk->small_scratch, desk->method, desk->record, &desk->order),
           "scratch"))
SLIP(no_record_is_without_loss,
     fails(desk->scratch, groat_price_without_loss(desk->scratch, desk->method, NULL, &desk->order),
           "record"))
SLIP(no_scratch_reaches_no_goal,
     groat_price_for_goal(NULL, desk->method, desk->record, &desk->order, 0) == GROAT_FAILED)
SLIP(a_goal_beyond_the_last_has_no_price,
     fails(desk->scratch,
           groat_price_for_goal(desk->scratch, desk->method, desk->record, &desk->order, 1),
           "goal"))
SLIP(a_goal_that_was_not_found_has_no_price,
     fails(desk->scratch,
           groat_price_for_goal(desk->scratch, desk->method, desk->record, &desk->order, SIZE_MAX),
           "goal"))
SLIP(a_foreign_scratch_reaches_no_goal,
     fails(desk->edited_scratch,
           groat_price_for_goal(desk->edited_scratch, desk->method, desk->record, &desk->order, 0),
           "scratch"))

/* ---- what a price reads ---- */

SLIP(no_scratch_reads_nothing,
     groat_reads(NULL, desk->method, desk->record, 0, desk->fields, desk->rates) == GROAT_BAD_VALUE)
SLIP(no_method_reads_nothing, groat_reads(desk->scratch, NULL, desk->record, 0, desk->fields,
                                          desk->rates) == GROAT_BAD_VALUE)
SLIP(no_record_reads_nothing, groat_reads(desk->scratch, desk->method, NULL, 0, desk->fields,
                                          desk->rates) == GROAT_BAD_VALUE)
SLIP(a_channel_beyond_the_last_reads_nothing,
     groat_reads(desk->scratch, desk->method, desk->record, 2, desk->fields, desk->rates) ==
         GROAT_BAD_VALUE)
SLIP(a_foreign_scratch_reads_nothing, groat_reads(desk->small_scratch, desk->method, desk->record,
                                                  0, desk->fields, desk->rates) == GROAT_BAD_VALUE)
SLIP(a_foreign_record_reads_nothing, groat_reads(desk->scratch, desk->method, desk->small_record, 0,
                                                 desk->fields, desk->rates) == GROAT_BAD_VALUE)
SLIP(whoever_wants_no_flags_gets_none,
     groat_reads(desk->scratch, desk->method, desk->record, 0, NULL, NULL) == GROAT_OK)

/* ---- columns ---- */

SLIP(columns_are_priced_where_nothing_is_wrong,
     columns_of(desk, desk->column) == GROAT_OK && desk->prices[0] == 300)
SLIP(no_scratch_prices_no_columns,
     refuses(desk,
             groat_price_columns(NULL, desk->small, &desk->order, &desk->column, 1, 1, desk->prices,
                                 NULL, &desk->trouble),
             "scratch"))
SLIP(no_method_prices_no_columns,
     refuses(desk,
             groat_price_columns(desk->small_scratch, NULL, &desk->order, &desk->column, 1, 1,
                                 desk->prices, NULL, &desk->trouble),
             "method"))
SLIP(no_order_prices_no_columns,
     refuses(desk,
             groat_price_columns(desk->small_scratch, desk->small, NULL, &desk->column, 1, 1,
                                 desk->prices, NULL, &desk->trouble),
             "order"))
SLIP(a_foreign_scratch_prices_no_columns,
     refuses(desk,
             groat_price_columns(desk->scratch, desk->small, &desk->order, &desk->column, 1, 1,
                                 desk->prices, NULL, &desk->trouble),
             "scratch"))
SLIP(columns_of_a_channel_that_is_none_are_refused,
     refuses(desk,
             groat_price_columns(desk->small_scratch, desk->small, &(groat_order){9, 1, NULL},
                                 &desk->column, 1, 1, desk->prices, NULL, &desk->trouble),
             "channel"))
SLIP(columns_of_no_pieces_are_refused,
     refuses(desk,
             groat_price_columns(desk->small_scratch, desk->small, &(groat_order){0, 0, NULL},
                                 &desk->column, 1, 1, desk->prices, NULL, &desk->trouble),
             "quantity"))
SLIP(columns_of_a_day_that_is_none_are_refused,
     refuses(desk,
             groat_price_columns(desk->small_scratch, desk->small,
                                 &(groat_order){0, 1, "2027-13-01"}, &desk->column, 1, 1,
                                 desk->prices, NULL, &desk->trouble),
             "date"))
SLIP(columns_that_are_none_but_counted_are_refused,
     refuses(desk, price_columns(desk, NULL, 1, 1), "columns"))
SLIP(more_columns_than_memory_holds_are_refused,
     refuses(desk, price_columns(desk, &desk->column, SIZE_MAX, 1), "columns"))
SLIP(more_rows_than_memory_holds_are_refused,
     refuses(desk, price_columns(desk, &desk->column, 1, SIZE_MAX), "rows"))
SLIP(a_column_of_a_field_beyond_the_last_is_refused,
     refuses(desk, columns_of(desk, (groat_number_column){1, desk->tops, 1}), "field"))
SLIP(a_column_of_a_field_that_was_not_found_is_refused,
     refuses(desk, columns_of(desk, (groat_number_column){SIZE_MAX, desk->tops, 1}), "field"))
SLIP(a_column_without_numbers_is_refused,
     refuses(desk, columns_of(desk, (groat_number_column){0, NULL, 1}), "numbers"))
SLIP(a_column_over_zero_is_refused,
     refuses(desk, columns_of(desk, (groat_number_column){0, desk->tops, 0}), "fraction"))
SLIP(a_column_over_the_least_number_is_refused,
     refuses(desk, columns_of(desk, (groat_number_column){0, desk->tops, INT64_MIN}), "fraction"))
SLIP(a_column_of_measures_below_zero_is_refused,
     refuses(desk, (desk->tops[0] = -5, columns_of(desk, desk->column)), "below zero"))
SLIP(a_required_field_without_a_column_is_named,
     refuses(desk, price_columns(desk, NULL, 0, 1), "weight"))
SLIP(a_required_text_is_no_column,
     refuses(desk,
             groat_price_columns(desk->scratch, desk->method, &desk->order,
                                 (groat_number_column[]){{1, desk->tops, 1}, {2, desk->tops, 1}}, 2,
                                 2, desk->prices, NULL, &desk->trouble),
             "name"))
SLIP(wrong_columns_need_no_trouble,
     groat_price_columns(desk->small_scratch, desk->small, &desk->order, NULL, 1, 1, NULL, NULL,
                         NULL) == GROAT_BAD_VALUE)

/* ---- results ---- */

SLIP(no_scratch_has_no_figure, is_missing(groat_result_figure(NULL, GROAT_PRICE)))
SLIP(a_figure_beyond_the_last_is_missing,
     prices(desk) &&
         is_missing(groat_result_figure(desk->scratch, (groat_figure)(GROAT_CEILING + 1))))
SLIP(a_figure_before_the_first_is_missing,
     prices(desk) && is_missing(groat_result_figure(desk->scratch, (groat_figure)-1)))
SLIP(a_figure_before_any_price_is_missing,
     is_missing(groat_result_figure(desk->scratch, GROAT_PRICE)))
SLIP(no_scratch_has_no_show, is_missing(groat_result_show(NULL, 0)))
SLIP(a_show_beyond_the_last_is_missing,
     prices(desk) && is_missing(groat_result_show(desk->scratch, 1)))
SLIP(a_show_that_was_not_found_is_missing,
     prices(desk) && is_missing(groat_result_show(desk->scratch, SIZE_MAX)))
SLIP(a_show_before_any_price_is_missing, is_missing(groat_result_show(desk->scratch, 0)))
SLIP(no_scratch_has_nothing_named, is_missing(groat_result_named(NULL, "wood")))
SLIP(no_name_names_nothing, prices(desk) && is_missing(groat_result_named(desk->scratch, NULL)))
SLIP(a_name_before_any_price_is_missing, is_missing(groat_result_named(desk->scratch, "wood")))
SLIP(no_scratch_rests_on_nothing, groat_result_footing(NULL) == GROAT_ON_NOTHING)
SLIP(what_was_not_priced_rests_on_nothing, groat_result_footing(desk->scratch) == GROAT_ON_NOTHING)
SLIP(no_scratch_meets_no_aim, groat_result_aim(NULL) == GROAT_AIM_NONE)
SLIP(what_was_not_priced_meets_no_aim, groat_result_aim(desk->scratch) == GROAT_AIM_NONE)
SLIP(no_scratch_has_no_line_of_a_goal, is_missing(groat_result_goal(NULL, 0, GROAT_NEEDS)))
SLIP(a_goal_beyond_the_last_has_no_line,
     prices(desk) && is_missing(groat_result_goal(desk->scratch, 1, GROAT_NEEDS)))
SLIP(a_goal_that_was_not_found_has_no_line,
     prices(desk) && is_missing(groat_result_goal(desk->scratch, SIZE_MAX, GROAT_NEEDS)))
SLIP(a_line_beyond_a_goals_last_is_missing,
     prices(desk) && is_missing(groat_result_goal(desk->scratch, 0, (groat_goal_line)4)))
SLIP(a_line_before_a_goals_first_is_missing,
     prices(desk) && is_missing(groat_result_goal(desk->scratch, 0, (groat_goal_line)-1)))
SLIP(no_scratch_has_an_empty_label,
     groat_result_label(NULL).length == 0 && groat_result_label(NULL).start[0] == '\0')
SLIP(what_was_not_priced_has_an_empty_label, groat_result_label(desk->scratch).length == 0)
SLIP(no_scratch_has_no_notes, groat_result_notes(NULL) == 0)
SLIP(no_scratch_has_no_note, groat_result_note(NULL, 0) == NULL)
SLIP(a_note_beyond_the_last_is_none, prices(desk) && groat_result_notes(desk->scratch) == 1 &&
                                         groat_result_note(desk->scratch, 0) &&
                                         !groat_result_note(desk->scratch, 1))
SLIP(a_note_far_beyond_the_last_is_none,
     prices(desk) && !groat_result_note(desk->scratch, SIZE_MAX))
SLIP(no_scratch_has_an_empty_reason, groat_result_reason(NULL)[0] == '\0')

/* ---- values ---- */

SLIP(a_blank_value_has_no_numerator,
     is_empty(desk, groat_value_top((groat_value){0}, desk->text, sizeof desk->text)))
SLIP(a_blank_value_has_no_denominator,
     is_empty(desk, groat_value_bottom((groat_value){0}, desk->text, sizeof desk->text)))
SLIP(a_value_made_up_by_the_host_has_no_numerator,
     is_empty(desk, groat_value_top((groat_value){.presence = GROAT_THERE}, desk->text,
                                    sizeof desk->text)))
SLIP(a_value_made_up_by_the_host_has_no_decimals,
     is_empty(desk, groat_value_places((groat_value){.presence = GROAT_THERE}, 2, desk->text,
                                       sizeof desk->text)))
SLIP(a_value_made_up_by_the_host_is_not_short,
     is_empty(desk, groat_value_short((groat_value){.presence = GROAT_THERE}, 2, desk->text,
                                      sizeof desk->text)))
SLIP(a_value_made_up_by_the_host_is_not_written,
     is_empty(desk,
              groat_value_write((groat_value){.presence = GROAT_THERE, .kind = GROAT_KIND_MONEY}, 2,
                                desk->text, sizeof desk->text)))
SLIP(a_value_of_no_kind_is_not_written,
     is_empty(desk, groat_value_write((groat_value){.presence = GROAT_THERE,
                                                    .kind = (groat_kind)99,
                                                    .inside = price_of(desk).inside},
                                      2, desk->text, sizeof desk->text)))
SLIP(money_without_its_unit_is_not_written,
     is_empty(desk, groat_value_write((groat_value){.presence = GROAT_THERE,
                                                    .kind = GROAT_KIND_MONEY,
                                                    .inside = price_of(desk).inside},
                                      2, desk->text, sizeof desk->text)))
SLIP(a_value_of_no_presence_is_not_written,
     is_empty(desk, groat_value_write((groat_value){.presence = (groat_presence)9}, 2, desk->text,
                                      sizeof desk->text)))
SLIP(decimals_without_end_are_not_written_past_the_buffer,
     groat_value_places(price_of(desk), UINT32_MAX, desk->text, sizeof desk->text) > 0 &&
         strlen(desk->text) < sizeof desk->text)
SLIP(short_decimals_without_end_are_written,
     groat_value_short(price_of(desk), UINT32_MAX, desk->text, sizeof desk->text) == 2)
SLIP(a_numerator_written_nowhere_has_its_length, groat_value_top(price_of(desk), NULL, 64) == 2)
SLIP(a_denominator_written_nowhere_has_its_length,
     groat_value_bottom(price_of(desk), NULL, 64) == 1)
SLIP(decimals_written_nowhere_have_their_length,
     groat_value_places(price_of(desk), 2, NULL, 64) == 5)
SLIP(a_short_value_written_nowhere_has_its_length,
     groat_value_short(price_of(desk), 2, NULL, 64) == 2)
SLIP(a_value_written_nowhere_has_its_length, groat_value_write(price_of(desk), 2, NULL, 64) == 5)
SLIP(a_buffer_larger_than_memory_is_believed,
     groat_value_write(price_of(desk), 2, desk->text, SIZE_MAX) == 5)

/* ---- explanations ---- */

SLIP(no_scratch_explains_nothing,
     explains_nothing(desk, explain(desk, NULL, desk->method, desk->record, &desk->order)))
SLIP(no_method_explains_nothing,
     explains_nothing(desk, explain(desk, desk->scratch, NULL, desk->record, &desk->order)))
SLIP(no_record_is_explained_by_nothing,
     explains_nothing(desk, explain(desk, desk->scratch, desk->method, NULL, &desk->order)))
SLIP(no_order_is_explained_by_nothing,
     explains_nothing(desk, explain(desk, desk->scratch, desk->method, desk->record, NULL)))
SLIP(a_channel_that_is_none_is_explained_by_nothing,
     explains_nothing(desk, explain(desk, desk->scratch, desk->method, desk->record,
                                    &(groat_order){SIZE_MAX, 1, NULL})))
SLIP(a_foreign_scratch_explains_nothing,
     explains_nothing(desk,
                      explain(desk, desk->small_scratch, desk->method, desk->record, &desk->order)))
SLIP(an_edited_methods_scratch_explains_nothing,
     explains_nothing(desk, explain(desk, desk->scratch, desk->edited, desk->edited_record,
                                    &desk->order)))
SLIP(a_foreign_record_is_explained_by_nothing,
     explains_nothing(desk,
                      explain(desk, desk->scratch, desk->method, desk->small_record, &desk->order)))
SLIP(whoever_wants_no_outcome_gets_none,
     (groat_explanation_free(groat_explain(desk->scratch, desk->method, desk->record, &desk->order,
                                           NULL)),
      true))
SLIP(no_scratch_explains_no_name,
     explains_nothing(desk, groat_explain_name(NULL, desk->method, desk->record, &desk->order,
                                               "wood", &desk->outcome)))
SLIP(a_foreign_scratch_explains_no_name,
     explains_nothing(desk, groat_explain_name(desk->edited_scratch, desk->method, desk->record,
                                               &desk->order, "wood", &desk->outcome)))
SLIP(an_explanation_ends_after_its_last_line, ends_after_its_last(desk))
SLIP(no_explanation_has_no_lines, groat_explanation_lines(NULL) == 0)
SLIP(no_explanation_has_no_line, groat_explanation_line(NULL, 0) == NULL)
SLIP(no_explanation_has_nothing_below,
     !groat_explanation_below(NULL).exists && groat_explanation_below(NULL).misses == 0)
SLIP(no_explanation_has_no_miss, groat_explanation_miss(NULL, 0) == NULL)
SLIP(no_explanation_may_be_freed, (groat_explanation_free(NULL), true))
