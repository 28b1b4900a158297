# The winter's feeding as a linear program, in GNU MathProg.
#
#     glpsol --math models/winter-plan.mod --data question.dat
#
# prints the cheapest rations that meet every need of every group of cattle through the winter. The
# data are raw facts: what a feed holds, what an animal needs, what a table of safety limits says.
# Every row is worked out from them here, apart from the program's own code, so that the one can be
# held against the other (tests/oracle/). tests/oracle/write_question.c writes the data of any farm:
#
#     build/release/tests/oracle/write_question question farm HERD.csv INVENTORY
#
# Given the rations of a plan as a second file of data, it says instead how far they are from rations
# that keep to every row:
#
#     glpsol --math models/winter-plan.mod --data question.dat --data question-rations.dat
#
# Two laws of the winter are not linear: how much cattle eat of a diet, and how growing cattle split
# its energy between upkeep and gain. Each stands here as the straight line that touches it at a given
# mix, beside a few lines that stay; the planner goes round until its mixes are those it was given.
# docs/planner.md

# ---------------------------------------------------------------- What there is

set GROUPS;                     # groups of cattle
set BLOCKS;                     # one group in one feeding period, in which its ration stays the same
set FEEDS;                      # own stacks, and feeds for sale
set OWN within FEEDS;           # own stacks
set NUTRIENTS;                  # of a feed analysis
set LIMITS;                     # the table of safety limits

# ---------------------------------------------------------------- Feeds

param feed_name{FEEDS} symbolic;
param class{FEEDS} symbolic;    # 'straw', 'grain' ...
param book_feed{FEEDS} symbolic; # the feed of the book of values it is likened to
param dry_matter{FEEDS};        # of what is fed, 0 to 1
param waste{FEEDS};             # of the dry matter offered, not eaten, 0 to 1
param shrink{FEEDS} default 0;  # of what is bought, lost before it is fed, 0 to 1
param price{FEEDS} default 0;   # dollars a tonne as fed, delivered
param own_value{FEEDS} default 0; # dollars a tonne as fed that own feed would fetch
param hauling{FEEDS} default 0; # dollars a tonne as fed, yard to cattle
param available{FEEDS} default -1; # tonnes as fed, after storage loss or most for sale; -1: no limit

# Next year's fields, where own feed is what is cut of them: which of a field's days and ways is an own
# feed each, of so many hectares, and what it makes and costs. Money and losses of a hectare are worked
# out here.
set FIELDS default {};
param field_area{FIELDS};       # hectares
set CUTS within OWN default {};
param cut_field{CUTS};
param cut_most{CUTS};           # hectares
param stands{CUTS};             # kg dry matter a hectare
param field_loss{CUTS};         # of it, before it is put up, 0 to 1
param rain_chance{CUTS};        # that it is rained on
param rain_loss{CUTS};          # of the dry matter where it is
param storage_loss{CUTS};       # of what is put up, 0 to 1
param hectare_cost{CUTS};       # dollars: seed, cutting, land
param tonne_cost{CUTS};         # dollars a tonne as put up: baling or ensiling, wrapping, hauling home
param regrowth{CUTS};           # kg dry matter a hectare
param regrowth_use{CUTS};       # of it, grazed, 0 to 1
param grazing_value{CUTS};      # dollars a tonne of dry matter grazed
param put_up{c in CUTS} :=      # tonnes as put up, a hectare
    stands[c] * (1 - field_loss[c]) * (1 - rain_chance[c] * rain_loss[c]) / dry_matter[c] / 1000;
param kept{c in CUTS} := put_up[c] * (1 - storage_loss[c]);
# What is made earns its value, and what is eaten pays it: what is left over is sold.
param costs_a_hectare{c in CUTS} := hectare_cost[c] + put_up[c] * tonne_cost[c] -
    regrowth[c] / 1000 * regrowth_use[c] * grazing_value[c] - kept[c] * own_value[c];

# Of the dry matter eaten (protein already thinned by lost leaves; nitrate as safety reckons it), in
# % or the unit of the table of limits; NEm and NEg in Mcal/kg; -1: not known.
param analysis{FEEDS, NUTRIENTS} default -1;

# Not known counts as none.
param holds{f in FEEDS, n in NUTRIENTS} := max(0, analysis[f,n]);

# Feeds that the limits speak of.
set FORAGE_CLASSES := {'cereal', 'cover_crop', 'legume', 'grass', 'legume_grass', 'corn_silage',
                       'sorghum', 'brassica', 'straw'};
set CALLS := {'straw', 'grain', 'meal', 'mineral', 'forage', 'brassica', 'urea', 'canola_forage',
              'distillers_grains', 'screenings_pellets', 'vetch', 'kochia', 'buckwheat',
              'untested_sweet_clover', 'mouldy_sweet_clover', 'untested_sorghum_silage', 'frosted_sorghum',
              'untested_ergot', 'untested_toxins', 'ammoniated', 'ammoniated_amiss', 'frozen_lumps'};
set MOISTURE_TESTED within FEEDS;       # a laboratory found how dry it is
set KEPT_AS_SILAGE within FEEDS;        # it lies wrapped, or shut in a pit, bag or silo
set WATCHED_FOR dimen 2;      # what the farmer says is in a feed or was done to it: (1, 'vetch')
set FEEDS_CALLED{s in CALLS} :=
    {f in FEEDS:
        (s = 'straw' and class[f] = 'straw') or
        (s = 'grain' and class[f] = 'grain') or
        (s = 'meal' and class[f] = 'meal') or
        (s = 'mineral' and class[f] = 'mineral') or
        (s = 'forage' and class[f] in FORAGE_CLASSES) or
        (s = 'brassica' and class[f] = 'brassica') or
        (s = 'urea' and class[f] = 'npn') or
        (s = 'canola_forage' and class[f] = 'brassica' and
            substr(book_feed[f] & '......', 1, 6) = 'canola') or
        (s = 'distillers_grains' and
            (substr(book_feed[f] & '..........', 1, 10) = 'wheat_ddgs' or
             substr(book_feed[f] & '.........', 1, 9) = 'corn_ddgs')) or
        (s = 'screenings_pellets' and
            substr(book_feed[f] & '........................', 1, 24) = 'grain_screenings_pellets') or
        (s in {'vetch', 'kochia', 'buckwheat', 'ammoniated'} and (f, s) in WATCHED_FOR) or
        (s = 'ammoniated_amiss' and (f, 'ammoniated') in WATCHED_FOR and
            (class[f] <> 'straw' or (f, 'heated') in WATCHED_FOR or analysis[f,'mould'] > 500000)) or
        (s = 'frozen_lumps' and (f, 'frozen lumps') in WATCHED_FOR) or
        (s = 'untested_sweet_clover' and (f, 'sweet clover') in WATCHED_FOR and
            analysis[f,'dicoumarol'] < 0) or
        (s = 'mouldy_sweet_clover' and (f, 'sweet clover') in WATCHED_FOR and
            analysis[f,'dicoumarol'] < 0 and
            ((dry_matter[f] >= 0.65 and dry_matter[f] < 0.82) or (f, 'heated') in WATCHED_FOR or
             analysis[f,'mould'] > 500000)) or
        (((s = 'untested_ergot' and class[f] not in FORAGE_CLASSES and analysis[f,'ergot'] < 0) or
          (s = 'untested_toxins' and (analysis[f,'ergot'] < 0 or analysis[f,'don'] < 0))) and
            (substr(book_feed[f] & '........................', 1, 24) = 'grain_screenings_pellets' or
             substr(book_feed[f] & '...', 1, 3) = 'rye' or
             substr(book_feed[f] & '.........', 1, 9) = 'triticale' or
             ((f, 'durum') in WATCHED_FOR and class[f] <> 'straw'))) or
        (s in {'untested_sorghum_silage', 'frosted_sorghum'} and class[f] = 'sorghum' and
            substr(book_feed[f] & '......', 1, 6) <> 'millet' and
            analysis[f,'prussic_acid_dry'] < 0 and
            ((s = 'untested_sorghum_silage' and
                (dry_matter[f] < 0.65 or (f in KEPT_AS_SILAGE and f not in MOISTURE_TESTED))) or
             (s = 'frosted_sorghum' and (f, 'frosted') in WATCHED_FOR and
                (dry_matter[f] < 0.82 or f not in MOISTURE_TESTED))))};
# A stomach is not filled with limestone, and limestone does not thin out straw.
set FILLS := {f in FEEDS: class[f] <> 'mineral' and class[f] <> 'npn'};

# ---------------------------------------------------------------- Who may have what, and when

param first_day{BLOCKS};        # day 1 is the first feeding day; both days are fed
param last_day{BLOCKS};
param use_from{FEEDS};
param use_until{FEEDS};
param lies_since{FEEDS};        # the day on which it lay there at the latest
param hauled_until{FEEDS} default 1; # the last day it can be hauled in; 1 or later: it can be
set MEANT_FOR within FEEDS cross GROUPS;

# ---------------------------------------------------------------- Cattle

param group{BLOCKS} symbolic;
param group_name{GROUPS} symbolic;
param is_mixed{GROUPS};         # 1: fed mixed; 0: cattle can pick one feed out
param head{BLOCKS};
set STAGES{BLOCKS};             # stages of life some of them are in during the period
param live_weight{BLOCKS};      # kg
param shrunk_weight{BLOCKS};    # kg

# Net energy for maintenance, Mcal a head and day, by cause; condition may be negative.
param energy_maintenance{BLOCKS} default 0;
param energy_activity{BLOCKS} default 0;
param energy_cold{BLOCKS} default 0;
param energy_pregnancy{BLOCKS} default 0;
param energy_milk{BLOCKS} default 0;
param energy_condition{BLOCKS} default 0;
param energy_retained{BLOCKS} default 0; # net energy of the gain of growing cattle

# Metabolizable protein, g a head and day, by cause.
param protein_maintenance{BLOCKS} default 0;
param protein_pregnancy{BLOCKS} default 0;
param protein_milk{BLOCKS} default 0;
param protein_gain{BLOCKS} default 0;

param calcium_need{BLOCKS};     # g a head and day
param phosphorus_need{BLOCKS};  # g a head and day
param least_in_diet{BLOCKS, NUTRIENTS} default 0; # least concentration; 0: none is set
param fibre_most{BLOCKS};       # kg NDF a head and day

# What a published table says in the place of the equations, of the whole diet, gain and all; -1: the
# equations hold.
param table_energy{BLOCKS} default -1; # Mcal NEm
param table_protein{BLOCKS} default -1; # g
param table_calcium{BLOCKS} default -1; # g
param table_phosphorus{BLOCKS} default -1; # g

# A nutritionist's own figures stand in the place of either, on the days they are given for; a period
# gets the mean over its days.
set FIGURES default {};
param figure_group{FIGURES} symbolic;
param figure_need{FIGURES} symbolic;
param figure_from{FIGURES};
param figure_until{FIGURES};
param figure_value{FIGURES};
param held_share{o in FIGURES, b in BLOCKS} :=
    if figure_group[o] <> group[b] then 0
    else max(0, min(figure_until[o], last_day[b]) - max(figure_from[o], first_day[b]) + 1) /
         (last_day[b] - first_day[b] + 1);
set NAMED := {'net_energy_maintenance', 'net_energy_gain', 'metabolizable_protein', 'ndf_most',
              'dry_matter_most', 'dry_matter_least'} union NUTRIENTS;
param said_share{b in BLOCKS, n in NAMED} :=
    1 - sum{o in FIGURES: figure_need[o] = n} held_share[o,b];
param own_part{b in BLOCKS, n in NAMED} :=
    sum{o in FIGURES: figure_need[o] = n} held_share[o,b] * figure_value[o];

param energy_upkeep{b in BLOCKS} := own_part[b,'net_energy_maintenance'] +
    said_share[b,'net_energy_maintenance'] *
        (if table_energy[b] >= 0 then table_energy[b]
         else max(0, energy_maintenance[b] + energy_activity[b] + energy_cold[b] +
                     energy_pregnancy[b] + energy_milk[b] + energy_condition[b]));
param energy_gain{b in BLOCKS} := own_part[b,'net_energy_gain'] +
    said_share[b,'net_energy_gain'] * (if table_energy[b] >= 0 then 0 else energy_retained[b]);
param protein_need{b in BLOCKS} := own_part[b,'metabolizable_protein'] +
    said_share[b,'metabolizable_protein'] *
        (if table_protein[b] >= 0 then table_protein[b]
         else protein_maintenance[b] + protein_pregnancy[b] + protein_milk[b] + protein_gain[b]);
param calcium_least{b in BLOCKS} := own_part[b,'calcium'] + said_share[b,'calcium'] *
    (if table_calcium[b] >= 0 then table_calcium[b] else calcium_need[b]);
param phosphorus_least{b in BLOCKS} := own_part[b,'phosphorus'] + said_share[b,'phosphorus'] *
    (if table_phosphorus[b] >= 0 then table_phosphorus[b] else phosphorus_need[b]);
param fibre_held{b in BLOCKS} :=
    own_part[b,'ndf_most'] + said_share[b,'ndf_most'] * fibre_most[b];
param concentration_least_of{b in BLOCKS, n in NUTRIENTS: least_in_diet[b,n] > 0} :=
    own_part[b,n] + said_share[b,n] * least_in_diet[b,n];

# The given mix.
param given_density{BLOCKS};    # n, Mcal NEm a kg of what fills
param given_gain{BLOCKS};       # r, its NEg for each NEm

# Intake: W^0.75 (square n^2 + linear n + constant) / max(n, 0.95) + added, kg dry matter a day, with
# W the shrunk weight.  [NRC_EQUATIONS_2000]
set ENDS := {'most', 'least'};  # what they can eat, and what fills them
param square{BLOCKS, ENDS};
param linear{BLOCKS, ENDS};
param constant{BLOCKS, ENDS};
param added{BLOCKS, ENDS};
param intake{b in BLOCKS, e in ENDS} := own_part[b,'dry_matter_' & e] +
    said_share[b,'dry_matter_' & e] * max(0, shrunk_weight[b] ^ 0.75 *
               max(0, square[b,e] * given_density[b] ^ 2 + linear[b,e] * given_density[b] +
                      constant[b,e]) / max(given_density[b], 0.95) + added[b,e]);
# Its slope, kg for each Mcal/kg: of a n + b + c / n, and below 0.95 of (a n^2 + b n + c) / 0.95.
param intake_slope{b in BLOCKS, e in ENDS} :=
    said_share[b,'dry_matter_' & e] * shrunk_weight[b] ^ 0.75 *
        (if square[b,e] * given_density[b] ^ 2 + linear[b,e] * given_density[b] + constant[b,e] <= 0
         then 0
         else if given_density[b] >= 0.95 then square[b,e] - constant[b,e] / given_density[b] ^ 2
         else (2 * square[b,e] * given_density[b] + linear[b,e]) / 0.95);


# Lines that stay where they are, beside those of the given mix: r of gain, and n of what fills. Those
# of gain stand at the nearest eighth of an octave of what NEm counts for beside NEg, r^2 M / R.
set GAIN_LINES := {0.45, 0.53, 0.6, 0.66};
param nem_per_neg{b in BLOCKS, r in GAIN_LINES: energy_gain[b] > 0} :=
    2 ^ (round(8 * log(r ^ 2 * energy_upkeep[b] / energy_gain[b]) / log(2)) / 8);
set FILL_LINES := {1.0, 1.15, 1.3};
set NEAR := {-1, 0, 1};         # hundredths of a Mcal/kg to its sides
param least_near{b in BLOCKS, n in FILL_LINES, k in NEAR} := own_part[b,'dry_matter_least'] +
    said_share[b,'dry_matter_least'] * max(0, shrunk_weight[b] ^ 0.75 *
        max(0, square[b,'least'] * (n + k / 100) ^ 2 + linear[b,'least'] * (n + k / 100) +
               constant[b,'least']) / (n + k / 100) + added[b,'least']);
param least_slope{b in BLOCKS, n in FILL_LINES} :=
    said_share[b,'dry_matter_least'] * shrunk_weight[b] ^ 0.75 *
        (if square[b,'least'] * n ^ 2 + linear[b,'least'] * n + constant[b,'least'] <= 0 then 0
         else square[b,'least'] - constant[b,'least'] / n ^ 2);
# Where one over the least bends down, all that it allows is on one side of its lines; not below 0.95,
# where it has a kink, and where a given mix so poor is left its own line alone.
set BENT := setof{b in BLOCKS, n in FILL_LINES: given_density[b] >= 0.95 and
    min{k in NEAR} least_near[b,n,k] > 0} (b, n);
set FILL_LINE := setof{(b, n) in BENT: 1 / least_near[b,n,1] + 1 / least_near[b,n,-1] -
    2 / least_near[b,n,0] < -1e-6 / least_near[b,n,0]} (b, n);

param head_days{b in BLOCKS} := head[b] * (last_day[b] - first_day[b] + 1);

# ---------------------------------------------------------------- Water

# Cattle drink about 4 L for each kg of dry matter [CSU_SULFUR]; SO4 is a third sulfur.
param water_nitrate default 0;  # mg NO3 in a litre
param water_sulfate default 0;  # mg SO4 in a litre
param water_sodium default 0;   # mg Na in a litre
param from_water{n in NUTRIENTS} := # % of dry matter
    if n = 'nitrate' then 4 * water_nitrate / 10000
    else if n = 'sulfur' then 4 * water_sulfate * 0.33376 / 10000
    else 0;

# ---------------------------------------------------------------- Safety limits

param kind{LIMITS} symbolic;    # 'concentration', 'each_feed', 'share', 'share_above' ...
param subject{LIMITS} symbolic; # a nutrient, 'salt', feeds as called above, a ratio
param above{LIMITS} default 0;  # share_above: feeds that hold more than this
param condition{LIMITS} symbolic default 'none'; # 'not_mixed'
param side{LIMITS} symbolic;    # 'most' or 'least'
param bound{LIMITS};
param warn{LIMITS};             # the caution line, on the harmless side of the bound
param caution_price{LIMITS} default 0; # dollars a head and day that a ration at the bound weighs for it
set HOLDS_FOR{LIMITS};          # stages

# A limit holds for a block when any of its cattle are in one of its stages.
set HELD within BLOCKS cross LIMITS :=
    setof{b in BLOCKS, l in LIMITS:
          (condition[l] <> 'not_mixed' or is_mixed[group[b]] = 0) and
          card(STAGES[b] inter HOLDS_FOR[l]) > 0} (b, l);

# No feed that breaks a limit on each feed alone, of which a limit allows a share of nothing, or that
# has not yet lain as many days as a limit asks.
set BARRED_ALONE within BLOCKS cross FEEDS :=
    setof{b in BLOCKS, f in FEEDS:
          exists{(b, l) in HELD: kind[l] = 'each_feed' and subject[l] in NUTRIENTS}
              (holds[f, subject[l]] > 0 and
               holds[f, subject[l]] + from_water[subject[l]] > bound[l]) or
          exists{(b, l) in HELD: kind[l] = 'each_feed' and subject[l] = 'heated&nitrate'}
              ((f, 'heated') in WATCHED_FOR and holds[f, 'nitrate'] > above[l]) or
          exists{(b, l) in HELD: kind[l] = 'share' and side[l] = 'most' and bound[l] <= 0}
              (f in FEEDS_CALLED[subject[l]]) or
          exists{(b, l) in HELD: kind[l] = 'days_kept'}
              (f in FEEDS_CALLED[subject[l]] and first_day[b] - lies_since[f] < bound[l])} (b, f);
set MAY_EAT_ALONE within BLOCKS cross FEEDS :=
    setof{b in BLOCKS, f in FEEDS:
          (f, group[b]) in MEANT_FOR and hauled_until[f] >= 1 and use_from[f] <= first_day[b] and
          last_day[b] <= use_until[f] and (b, f) not in BARRED_ALONE} (b, f);

# No urea where another feed they may have could take the diet above a share of nitrate.
set MAY_EAT within BLOCKS cross FEEDS :=
    setof{(b, f) in MAY_EAT_ALONE:
          class[f] <> 'npn' or
          not exists{(b, l) in HELD: kind[l] = 'each_feed' and subject[l] = 'urea&nitrate'}
              (exists{(b, g) in MAY_EAT_ALONE: class[g] <> 'npn'}
                  holds[g, 'nitrate'] + from_water['nitrate'] > above[l])} (b, f);

# Cautions: a ration beyond a caution line is weighed as dearer, the dearer the further it goes toward
# the bound. The way of a concentration, a share or a ratio is that of 2 % of live weight of a usual
# ration.
param caution_weight default 0;
set CAUTIONED within HELD :=
    {(b, l) in HELD: caution_price[l] * caution_weight > 0 and warn[l] <> bound[l] and
                     kind[l] in {'concentration', 'share', 'share_above', 'weight_share', 'ratio'}};
param usual{l in LIMITS} := # of what a ratio is, in a kg
    if subject[l] = 'calcium/phosphorus' then 0.25
    else if subject[l] = 'npn_protein/crude_protein' then 10
    else if subject[l] = 'npn_protein/supplement_protein' then 5
    else if subject[l] = 'copper/molybdenum' then 1.5
    else if subject[l] = 'potassium/(calcium+magnesium)' then 400
    else if subject[l] = 'sulfur/forage_line' then 0.8
    else 1;
param way{(b, l) in CAUTIONED} := abs(warn[l] - bound[l]) * live_weight[b] *
    (if kind[l] = 'weight_share' then 1 else 0.02 * usual[l]);
# Of a feed alone, what a kg of it weighs.
param feed_weighs{(b, f) in MAY_EAT} := caution_weight / (0.02 * live_weight[b]) *
    sum{(b, l) in HELD: kind[l] = 'each_feed' and subject[l] in NUTRIENTS and warn[l] <> bound[l]}
        (if holds[f,subject[l]] > 0
         then caution_price[l] *
              max(0, min(1, (holds[f,subject[l]] + from_water[subject[l]] - warn[l]) /
                            (bound[l] - warn[l])))
         else 0);
# Each limit that holds, with its bound and, where it has one, its caution line.
set ROWS := setof{(b, l) in HELD} (b, l, 'bound') union setof{(b, l) in CAUTIONED} (b, l, 'warn');
param at{(b, l, k) in ROWS} := if k = 'warn' then warn[l] else bound[l];

# ---------------------------------------------------------------- Rations

var eaten{MAY_EAT} >= 0;        # kg dry matter a head and day
var microbial{BLOCKS} >= 0;     # protein of rumen microbes, g a head and day
var bought{f in FEEDS: f not in OWN} >= 0; # tonnes as fed
var hectares{c in CUTS} >= 0, <= cut_most[c];
var beyond{CAUTIONED} >= 0;     # shares of the way from the caution line to the bound

# Tonnes as fed taken from the stack or the truck for 1 kg eaten by each head each day.
param taken{(b, f) in MAY_EAT} :=
    head_days[b] / (1 - waste[f]) / dry_matter[f] / 1000;

# ---------------------------------------------------------------- Aim

# Rations to be tried, from a second file of data; -1: none.
param ration{BLOCKS, FEEDS} default -1;
param is_trial := if exists{b in BLOCKS, f in FEEDS} ration[b,f] >= 0 then 1 else 0;
check{b in BLOCKS, f in FEEDS: (b, f) not in MAY_EAT}: ration[b,f] <= 0;
var apart >= 0;                 # kg dry matter a head and day, the farthest of any feed

minimize aim:
    if is_trial then apart
    else sum{f in FEEDS: f not in OWN} price[f] * bought[f] +
         sum{c in CUTS} costs_a_hectare[c] * hectares[c] +
         sum{(b, f) in MAY_EAT} taken[b,f] * (own_value[f] + hauling[f]) * eaten[b,f] +
         sum{(b, l) in CAUTIONED} caution_weight * caution_price[l] * head_days[b] * beyond[b,l] +
         sum{(b, f) in MAY_EAT} head_days[b] * feed_weighs[b,f] * eaten[b,f];

s.t. no_more_than_tried{(b, f) in MAY_EAT: is_trial}: eaten[b,f] - apart <= ration[b,f];
s.t. no_less_than_tried{(b, f) in MAY_EAT: is_trial}: eaten[b,f] + apart >= ration[b,f];

# ---------------------------------------------------------------- What a ration brings

var total{BLOCKS};              # kg dry matter a head and day
var filling{BLOCKS};            # kg of it that fills; its density is what hunger follows
var brings{BLOCKS, NUTRIENTS};  # analysis times kg: % kg is 10 g, ppm kg is mg, Mcal/kg kg is Mcal
var rumen_protein{BLOCKS};      # g degraded in the rumen, a head and day
var passing_protein{BLOCKS};    # g that passes it

s.t. total_is{b in BLOCKS}: total[b] = sum{(b, f) in MAY_EAT} eaten[b,f];
s.t. filling_is{b in BLOCKS}: filling[b] = sum{(b, f) in MAY_EAT: f in FILLS} eaten[b,f];
s.t. brings_is{b in BLOCKS, n in NUTRIENTS}:
    brings[b,n] = sum{(b, f) in MAY_EAT} holds[f,n] * eaten[b,f];
# Protein of which nobody knows how much the rumen degrades feeds neither microbes nor cow.
s.t. rumen_protein_is{b in BLOCKS}:
    rumen_protein[b] = sum{(b, f) in MAY_EAT: analysis[f,'rdp_pct_of_cp'] >= 0}
        10 * holds[f,'crude_protein'] * holds[f,'rdp_pct_of_cp'] / 100 * eaten[b,f];
s.t. passing_protein_is{b in BLOCKS}:
    passing_protein[b] = sum{(b, f) in MAY_EAT: analysis[f,'rdp_pct_of_cp'] >= 0}
        10 * holds[f,'crude_protein'] * (1 - holds[f,'rdp_pct_of_cp'] / 100) * eaten[b,f];

# ---------------------------------------------------------------- Energy

s.t. energy_of_grown{b in BLOCKS: energy_gain[b] <= 0}:
    brings[b,'nem'] >= energy_upkeep[b];

# Of growing cattle upkeep M takes its share of the diet, and the rest of it is for gain, R: with E
# the diet's NEm and G its NEg, G (1 - M / E) >= R. So much of a mix with r = G / E as just does gives
# upkeep the share r M / (r M + R); there G changes it by one less that share and E by r times it, and
# the line through it, times r M + R, is
s.t. energy_of_growing{b in BLOCKS: energy_gain[b] > 0}:
    energy_gain[b] * brings[b,'neg'] + max(given_gain[b], 0.05) ^ 2 * energy_upkeep[b] * brings[b,'nem']
        >= (energy_gain[b] + max(given_gain[b], 0.05) * energy_upkeep[b]) ^ 2;
s.t. energy_of_growing_line{b in BLOCKS, r in GAIN_LINES: energy_gain[b] > 0}:
    brings[b,'neg'] + nem_per_neg[b,r] * brings[b,'nem']
        >= (sqrt(energy_gain[b]) + sqrt(nem_per_neg[b,r] * energy_upkeep[b])) ^ 2;

# ---------------------------------------------------------------- Protein

# Microbes make a tenth of the digestible nutrients when they lack nothing [GALYEAN_2024], or 0.13 of
# them [NRC_2000], or 0.087 and 42.73 g [NASEM_2016]; never more than they find in the rumen.
param microbial_share default 0.10;
param microbial_constant default 0; # g
var microbial_most{BLOCKS};     # g that the energy allows
s.t. microbial_most_is{b in BLOCKS}:
    microbial_most[b] = microbial_share * 1000 * brings[b,'tdn'] / 100 + microbial_constant;
s.t. microbes_from_energy{b in BLOCKS}:
    microbial[b] <= microbial_most[b];
s.t. microbes_from_protein{b in BLOCKS}:
    microbial[b] <= rumen_protein[b];
s.t. metabolizable_protein{b in BLOCKS}: # [NRC_EQUATIONS_2000]
    0.64 * microbial[b] + 0.80 * passing_protein[b]
        >= protein_need[b];
s.t. microbes_are_fed{b in BLOCKS}:
    rumen_protein[b] >= microbial_most[b];

# ---------------------------------------------------------------- Room

# Density is brings / filling: away from a full ration of the given mix it moves by
# (brings - n filling) / intake.
s.t. can_eat{b in BLOCKS}:
    total[b] <= intake[b,'most'] + intake_slope[b,'most'] / max(intake[b,'most'], 0.1) *
                                       (brings[b,'nem'] - given_density[b] * filling[b]);
s.t. is_full{b in BLOCKS}:
    filling[b] >= intake[b,'least'] + intake_slope[b,'least'] / max(intake[b,'least'], 0.1) *
                                          (brings[b,'nem'] - given_density[b] * filling[b]);
s.t. is_full_line{(b, n) in FILL_LINE}:
    filling[b] >= least_near[b,n,0] + least_slope[b,n] / max(least_near[b,n,0], 0.1) *
                                          (brings[b,'nem'] - n * filling[b]);
s.t. fibre{b in BLOCKS}: brings[b,'ndf'] / 100 <= fibre_held[b];

# ---------------------------------------------------------------- Minerals and vitamins

s.t. calcium{b in BLOCKS}: 10 * brings[b,'calcium'] >= calcium_least[b];
s.t. phosphorus{b in BLOCKS}: 10 * brings[b,'phosphorus'] >= phosphorus_least[b];

# A least concentration is asked for only where it can be judged: some mineral brings it, or every
# other feed has it known.
set JUDGED := setof{n in NUTRIENTS:
    exists{f in FEEDS: class[f] = 'mineral'} analysis[f,n] > 0 or
    forall{f in FEEDS: class[f] <> 'mineral' and class[f] <> 'npn'} analysis[f,n] >= 0} n;

s.t. mineral{b in BLOCKS, n in JUDGED: least_in_diet[b,n] > 0}:
    brings[b,n] >= concentration_least_of[b,n] * total[b];

# ---------------------------------------------------------------- Safety of the whole diet

# Nutrients, with what the water brings of them; sulfur and salt of the dry matter that fills: limestone
# must not thin out the sulfur of a well. Where no feed is known to hold any there is nothing to steer by.
s.t. concentration_most{(b, l, k) in ROWS: kind[l] = 'concentration' and side[l] = 'most' and
                        subject[l] in NUTRIENTS and exists{f in FEEDS} holds[f,subject[l]] > 0}:
    brings[b,subject[l]] <= (at[b,l,k] - from_water[subject[l]]) *
            (if subject[l] = 'sulfur' then filling[b] else total[b])
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);
s.t. concentration_least{(b, l, k) in ROWS: kind[l] = 'concentration' and side[l] = 'least' and
                         subject[l] in NUTRIENTS}:
    brings[b,subject[l]] + from_water[subject[l]] * total[b] >= at[b,l,k] * total[b]
        - (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# Salt is told from sodium, the water's too: NaCl is 2.542 times its Na.
s.t. salt_most{(b, l, k) in ROWS: kind[l] = 'concentration' and side[l] = 'most' and
               subject[l] = 'salt'}:
    2.542 * (brings[b,'sodium'] + 4 * water_sodium / 10000 * filling[b]) <= at[b,l,k] * filling[b]
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# Which feeds a limit counts together.
set COUNTED{l in LIMITS: kind[l] in {'share', 'share_above', 'weight_share'}} :=
    {f in FEEDS:
        (kind[l] = 'share_above' and subject[l] in NUTRIENTS and holds[f, subject[l]] > above[l]) or
        (kind[l] <> 'share_above' and subject[l] in CALLS and f in FEEDS_CALLED[subject[l]])};

s.t. share_most{(b, l, k) in ROWS: kind[l] in {'share', 'share_above'} and side[l] = 'most' and
                card(COUNTED[l]) > 0}:
    sum{(b, f) in MAY_EAT: f in COUNTED[l]} eaten[b,f] <= at[b,l,k] * filling[b]
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);
s.t. share_least{(b, l, k) in ROWS: kind[l] in {'share', 'share_above'} and side[l] = 'least'}:
    sum{(b, f) in MAY_EAT: f in COUNTED[l]} eaten[b,f] >= at[b,l,k] * filling[b]
        - (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# Kilograms a day for each kilogram of live weight.
s.t. weight_share_most{(b, l, k) in ROWS: kind[l] = 'weight_share' and side[l] = 'most'}:
    sum{(b, f) in MAY_EAT: f in COUNTED[l]} eaten[b,f] <= at[b,l,k] * live_weight[b]
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);
s.t. weight_share_least{(b, l, k) in ROWS: kind[l] = 'weight_share' and side[l] = 'least'}:
    sum{(b, f) in MAY_EAT: f in COUNTED[l]} eaten[b,f] >= at[b,l,k] * live_weight[b]
        - (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

s.t. calcium_to_phosphorus_least{(b, l, k) in ROWS: kind[l] = 'ratio' and side[l] = 'least' and
                                 subject[l] = 'calcium/phosphorus'}:
    brings[b,'calcium'] >= at[b,l,k] * brings[b,'phosphorus']
        - (if k = 'warn' then way[b,l] * beyond[b,l] else 0);
s.t. calcium_to_phosphorus_most{(b, l, k) in ROWS: kind[l] = 'ratio' and side[l] = 'most' and
                                subject[l] = 'calcium/phosphorus'}:
    brings[b,'calcium'] <= at[b,l,k] * brings[b,'phosphorus']
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# Protein that is none, of urea and the like.
s.t. no_true_protein{(b, l, k) in ROWS: kind[l] = 'ratio' and side[l] = 'most' and
                     subject[l] = 'npn_protein/crude_protein'}:
    sum{(b, f) in MAY_EAT: class[f] = 'npn'} holds[f,'crude_protein'] * eaten[b,f]
        <= at[b,l,k] * brings[b,'crude_protein']
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# The same of what supplements poor forage: of all but forage with less than 7 % of crude protein.
s.t. no_true_supplement{(b, l, k) in ROWS: kind[l] = 'ratio' and side[l] = 'most' and
                        subject[l] = 'npn_protein/supplement_protein'}:
    sum{(b, f) in MAY_EAT: class[f] = 'npn'} holds[f,'crude_protein'] * eaten[b,f]
        <= at[b,l,k] * sum{(b, f) in MAY_EAT: class[f] not in FORAGE_CLASSES or holds[f,'crude_protein'] >= 7}
               holds[f,'crude_protein'] * eaten[b,f]
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# Potassium against calcium and magnesium, in milliequivalents.  [TETANY_REVIEW]
s.t. grass_tetany{(b, l, k) in ROWS: kind[l] = 'ratio' and side[l] = 'most' and
                  subject[l] = 'potassium/(calcium+magnesium)'}:
    255.74 * brings[b,'potassium']
        <= at[b,l,k] * (499.00 * brings[b,'calcium'] + 822.64 * brings[b,'magnesium'])
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# Copper against molybdenum, where any molybdenum is known.
s.t. copper_to_molybdenum{(b, l, k) in ROWS: kind[l] = 'ratio' and side[l] = 'least' and
                          subject[l] = 'copper/molybdenum' and
                          exists{f in FEEDS} holds[f,'molybdenum'] > 0}:
    brings[b,'copper'] >= at[b,l,k] * brings[b,'molybdenum']
        - (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# Sulfur, the water's too, against what forage lets cattle bear: 0.30 % at 15 % forage and 0.50 % at
# 40 %, straight between.  [SULFUR_FORAGE_SHARE]
s.t. sulfur_by_forage{(b, l, k) in ROWS: kind[l] = 'ratio' and side[l] = 'most' and
                      subject[l] = 'sulfur/forage_line' and
                      exists{f in FEEDS} holds[f,'sulfur'] + from_water['sulfur'] > 0}:
    brings[b,'sulfur'] + from_water['sulfur'] * filling[b]
        <= at[b,l,k] * sum{(b, f) in MAY_EAT: f in FILLS}
               (0.30 + (0.50 - 0.30) / (0.40 - 0.15) *
                       ((if class[f] in FORAGE_CLASSES then 1 else 0) - 0.15)) * eaten[b,f]
        + (if k = 'warn' then way[b,l] * beyond[b,l] else 0);

# ---------------------------------------------------------------- Feed on hand, and bought

s.t. field{i in FIELDS}: sum{c in CUTS: cut_field[c] = i} hectares[c] <= field_area[i];
s.t. cut{c in CUTS}:
    sum{(b, c) in MAY_EAT} taken[b,c] * eaten[b,c] <= kept[c] * hectares[c];
s.t. stack{f in OWN: available[f] >= 0 and f not in CUTS}:
    sum{(b, f) in MAY_EAT} taken[b,f] * eaten[b,f] <= available[f];
s.t. truck{f in FEEDS: f not in OWN}:
    sum{(b, f) in MAY_EAT} taken[b,f] * eaten[b,f] <= (1 - shrink[f]) * bought[f];
s.t. for_sale{f in FEEDS: f not in OWN and available[f] >= 0}: bought[f] <= available[f];

# Own forage wanted at the end, tonnes of dry matter; a stack that nobody may have is none.
param carry_over default 0;
set OWN_FORAGE := {f in OWN: class[f] in FORAGE_CLASSES and exists{(b, f) in MAY_EAT} 1};
s.t. left_at_the_end{i in 1..1: carry_over > 0}:
    sum{f in OWN_FORAGE: f not in CUTS} dry_matter[f] * available[f] +
    sum{c in OWN_FORAGE inter CUTS} dry_matter[c] * kept[c] * hectares[c] -
    sum{f in OWN_FORAGE, (b, f) in MAY_EAT} dry_matter[f] * taken[b,f] * eaten[b,f] >= carry_over;

solve;

# ---------------------------------------------------------------- What is printed

printf{i in 1..1: is_trial} "Farthest from a ration that keeps to every row: %.3e kg a head and day\n",
    apart;
printf{i in 1..1: not is_trial} "Least cost of feed and hauling: %.2f\n",
    sum{f in FEEDS: f not in OWN} price[f] * bought[f] +
    sum{c in CUTS} costs_a_hectare[c] * hectares[c] +
    sum{(b, f) in MAY_EAT} taken[b,f] * (own_value[f] + hauling[f]) * eaten[b,f];
printf{i in 1..1: not is_trial} "Caution lines passed weigh: %.2f\n",
    sum{(b, l) in CAUTIONED} caution_weight * caution_price[l] * head_days[b] * beyond[b,l] +
    sum{(b, f) in MAY_EAT} head_days[b] * feed_weighs[b,f] * eaten[b,f];
printf{c in CUTS: not is_trial and hectares[c] > 0.0005} "%12.3f hectares  %s\n",
    hectares[c], feed_name[c];
for {b in BLOCKS: not is_trial} {
    printf "\n%s, day %d to %d: kg a head and day\n%12s %12s\n", group_name[group[b]],
        first_day[b], last_day[b], "dry matter", "as fed";
    printf{(b, f) in MAY_EAT: eaten[b,f] > 0.0005} "%12.3f %12.3f  %s\n",
        eaten[b,f], eaten[b,f] / (1 - waste[f]) / dry_matter[f], feed_name[f];
}
printf{i in 1..1: not is_trial} "\nBought, tonnes as fed\n";
printf{f in FEEDS: f not in OWN and not is_trial and bought[f] > 0.00005}
    "%12.3f  %s\n", bought[f], feed_name[f];

end;
