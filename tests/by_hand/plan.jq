# A printed plan multiplied out by hand, from its figures alone: every amount, limit, stack and dollar
# is worked again here from the rations and the feeds' analysis, and a line is printed for each that
# does not agree. The arithmetic is written from the publications, not from the program.
#
#   jq -r -f tests/by_hand/plan.jq plan.json

def near($a; $b; $share): ($a - $b) | fabs <= $share * ([($a | fabs), ($b | fabs), 1e-3] | max);
def complain($where; $what; $printed; $worked):
  "\($where): \($what): printed \($printed), worked out \($worked)";
def agree($where; $what; $printed; $worked; $share):
  if $printed == null and $worked == null then empty
  elif $printed == null or $worked == null then complain($where; $what; $printed; $worked)
  elif near($printed; $worked; $share) then empty
  else complain($where; $what; $printed; $worked) end;
def or_none: if . == null then 0 else . end;

. as $plan
| (reduce $plan.feeds[] as $f ({}; .[$f.feed] = $f)) as $feed
| 1e-6 as $exact
| def total($ration; g): [$ration[] | . as $r | $feed[$r.feed] as $f | $r.dry_matter_kg * ($f | g)] | add // 0;
  def concentration($ration; $n): total($ration; .as_eaten[$n] | or_none) / total($ration; 1);
  # shares, and the most of sulfur and salt, are of dry matter without minerals and urea
  def filling($ration): total($ration; if .class == "mineral" or .class == "npn" then 0 else 1 end);
  def share($ration; p): total($ration; if p then 1 else 0 end) / filling($ration);
  def held($ration; $n): total($ration; .as_eaten[$n] | or_none) / filling($ration);

  # g of protein that microbes make of a kg times % of TDN, which is 10 g of it
  def microbes($tdn):
    if $plan.protein == "thirteen" then 10 * 0.13 * $tdn
    elif $plan.protein == "2016" then 10 * 0.087 * $tdn + 42.73
    elif $plan.protein == "ten" then 10 * 0.10 * $tdn
    else null end;
  def microbial($r):
    [microbes(total($r; .as_eaten.tdn | or_none)), total($r; .degradable_protein_g_per_kg)] | min;

  # What the ration supplies against the limit named; null: not worked out here.
  def worked($key; $p):
    $p.ration as $r
    | total($r; .as_eaten.nem | or_none) as $nem
    | total($r; .as_eaten.neg | or_none) as $neg
    | total($r; .as_eaten.tdn | or_none) as $tdn
    | total($r; .degradable_protein_g_per_kg) as $rdp
    | total($r; .undegradable_protein_g_per_kg) as $rup
    | if $key == "net_energy_maintenance" then $nem
      elif $key == "net_energy" then
        ([$nem, $p.upkeep_nem_mcal] | min)
        + (if $nem > $p.upkeep_nem_mcal then $neg * (1 - $p.upkeep_nem_mcal / $nem) else 0 end)
      elif $key == "metabolizable_protein" then 0.64 * microbial($r) + 0.80 * $rup
      elif $key == "degradable_protein" then $rdp / microbes($tdn)
      elif $key == "dry_matter" then total($r; 1)
      elif $key == "dry_matter_fill" then total($r; if .class == "mineral" or .class == "npn" then 0 else 1 end)
      elif $key == "ndf" then total($r; .as_eaten.ndf | or_none) / 100
      elif $key == "calcium" or $key == "phosphorus" then 10 * total($r; .as_eaten[$key] | or_none)
      elif ($key | startswith("nitrate_total")) then
        concentration($r; "nitrate") + $plan.water.adds_nitrate_pct
      elif $key == "sulfur_total" then held($r; "sulfur") + $plan.water.adds_sulfur_pct
      elif $key == "sulfur" then concentration($r; "sulfur")
      elif $key == "fat_total" then concentration($r; "crude_fat")
      elif $key == "salt_most" then 2.542 * held($r; "sodium") + $plan.water.adds_salt_pct
      elif ($key | startswith("protein_floor")) then concentration($r; "crude_protein")
      elif ($key | test("_most$|_total$|_pregnant$|_close$|_nursing$")) and
           ($plan.feeds[0].as_eaten | has($key | sub("_(most|total|pregnant|close|nursing)$"; "")))
      then concentration($r; $key | sub("_(most|total|pregnant|close|nursing)$"; ""))
      elif ($key | startswith("calcium_phosphorus")) then
        concentration($r; "calcium") / concentration($r; "phosphorus")
      elif ($key | startswith("tetany_ratio")) then
        255.74 * concentration($r; "potassium")
        / (499.00 * concentration($r; "calcium") + 822.64 * concentration($r; "magnesium"))
      elif $key == "npn_protein_share" then
        total($r; if .class == "npn" then .as_eaten.crude_protein else 0 end) / total($r; .as_eaten.crude_protein | or_none)
      elif $key == "npn_supplement_share" then # beside forage with less than 7 % of protein
        total($r; if .forage and (.as_eaten.crude_protein | or_none) < 7 then 0 else .as_eaten.crude_protein | or_none end) as $cp
        | if $cp > 0 then total($r; if .class == "npn" then .as_eaten.crude_protein else 0 end) / $cp else "none" end
      elif $key == "urea_weight" then total($r; if .class == "npn" then 1 else 0 end)
      elif $key == "nitrate_share_dry" or $key == "nitrate_share_late" or $key == "nitrate_share_open_half" then
        100 * share($r; .as_eaten.nitrate > 0.664)
      elif $key == "nitrate_share_open_third" then 100 * share($r; .as_eaten.nitrate > 0.885)
      elif $key == "nitrate_share_open_quarter" then 100 * share($r; .as_eaten.nitrate > 1.549)
      elif $key == "nitrate_share_dry_prairie" then 100 * share($r; .as_eaten.nitrate > 0.885)
      elif $key == "copper_molybdenum" then # no molybdenum known, no ratio
        concentration($r; "molybdenum") as $mo | if $mo > 0 then concentration($r; "copper") / $mo else "none" end
      elif $key == "sulfur_forage_diet" then held($r; "sulfur") + $plan.water.adds_sulfur_pct
      elif $key == "sulfur_forage_line" then # 0.30 % at 15 % forage, 0.50 % at 40 %
        100 * (held($r; "sulfur") + $plan.water.adds_sulfur_pct)
        / (0.18 + 0.80 * total($r; if .forage then 1 else 0 end) / filling($r))
      elif ($key | startswith("don_")) then concentration($r; "don")
      elif $key == "aflatoxin_young" then concentration($r; "aflatoxin")
      elif ($key | test("^(vetch|kochia|buckwheat)_share$")) then
        100 * share($r; .watch_for | index([$key | sub("_share$"; "")]) != null)
      elif $key == "frozen_lumps_share" then 100 * share($r; .watch_for | index(["frozen lumps"]) != null)
      elif ($key | startswith("sweet_clover_")) then
        100 * share($r; (.watch_for | index(["sweet clover"]) != null) and .as_eaten.dicoumarol == null)
      elif ($key | startswith("straw_share")) then 100 * share($r; .class == "straw")
      elif ($key | startswith("forage_share")) then 100 * share($r; .forage)
      elif ($key | startswith("meal_share")) then 100 * share($r; .class == "meal")
      elif $key == "mineral_weight" then total($r; if .class == "mineral" then 1 else 0 end)
      elif ($key | startswith("straw_weight")) then total($r; if .class == "straw" then 1 else 0 end)
      elif ($key | startswith("grain_weight")) then total($r; if .class == "grain" then 1 else 0 end)
      elif ($key | startswith("forage_weight")) then total($r; if .forage then 1 else 0 end)
      elif ($plan.feeds[0].as_eaten | has($key)) then concentration($r; $key)
      else null end;

  # Dearer where both yards are said and are not the same.
  def haul($f; $g): $f.haul_per_kg
    + (if ($f.yard // "") != "" and $g.yard != "" and ($f.yard | ascii_downcase) != ($g.yard | ascii_downcase)
       then $f.haul_to_other_yard_per_kg else 0 end);

  # ---- the rules of the yard
  def keeps($rule): $plan.yard_rules != null and any($plan.yard_rules.rules[]; .rule == $rule and .kept);
  def is_filling: $feed[.feed].class != "mineral" and $feed[.feed].class != "npn";
  def filling: [.ration[] | select(is_filling) | .dry_matter_kg] | add // 0;
  def fed($p; $name; k): [$p.ration[] | select(.feed == $name) | k] | add // 0;
  ( $plan.groups[] as $g | range($g.periods | length) as $i | $g.periods[$i] as $p
    | "\($g.group), \($p.from)" as $where
    | ($p | filling) as $all
    | [ $p.ration[] | select(is_filling and .dry_matter_kg > 1e-5) ] as $fed
    | ( if keeps("most_feeds") and ($fed | length) > $plan.yard_rules.most_feeds
        then "\($where): \($fed | length) feeds" else empty end ),
      ( $fed[] | select(keeps("least_share") and .dry_matter_kg < $plan.yard_rules.least_share_pct / 100 * $all - 1e-5)
        | "\($where): \(.feed): too little of it" ),
      ( $p.ration[] | select(keeps("whole_bales") and .group_bales != null)
        | . as $r | (.group_bales * 7 * .whole_bale_weeks) as $bales
        | select(all($plan.yard_rules.not_in_whole_bales[];
                     .group != $g.group or .from != $p.from or .feed != $r.feed))
        | agree($where; "whole bales of \(.feed)"; $bales; ($bales | round); 1e-5) ),
      ( select(keeps("largest_change") and $i > 0) | $g.periods[$i - 1] as $q
        | [$p.ration[], $q.ration[] | select(is_filling) | .feed] | unique[] | . as $name
        | ( (fed($p; $name; .dry_matter_kg) - fed($q; $name; .dry_matter_kg) | fabs)
            | select($plan.yard_rules.largest_change_pct > 0 and . > $plan.yard_rules.largest_change_pct / 100 * $all + 1e-5)
            | "\($where): \($name) changes by \(.) kg of dry matter" ),
          ( (fed($p; $name; .as_fed_kg) - fed($q; $name; .as_fed_kg) | fabs)
            | select($plan.yard_rules.largest_change_kg > 0 and . > $plan.yard_rules.largest_change_kg + 1e-5)
            | "\($where): \($name) changes by \(.) kg as fed" ) ) ),
  ( [$plan.groups[].periods[].from] | unique[] | . as $day
    | [ $plan.feeds[] | select(.has_face) | . as $f
        | [ $plan.groups[] as $g | $g.periods[] | select(.from <= $day and $day <= .to)
            | fed(.; $f.feed; .group_as_fed_kg) ] | add // 0
        | select(. > 0.01) | {name: $f.feed, kg: ., least: $f.least_face_kg_per_day} ] as $open
    | ( if keeps("one_face_open") and ($open | length) > 1 then "\($day): \($open | length) faces are open" else empty end ),
      ( $open[] | select(keeps("least_face") and .kg < .least * (1 - 1e-6))
        | "\($day): \(.name): \(.kg) kg are less than its face wants" ) ),

  # ---- each ration
  ( $plan.groups[] as $g | $g.periods[] as $p
    | "\($g.group), \($p.from)" as $where
    | ( agree($where; "dry matter intake"; $p.dry_matter_intake; total($p.ration; 1); $exact),
        agree($where; "microbial protein"; $p.microbial_protein_kg * 1000; microbial($p.ration); $exact),
        ( $p.not_planned_for[] as $n
          | agree($where; "\($n.nutrient) of minerals"; $n.minerals_bring;
                  total($p.ration; if .class == "mineral" then .as_eaten[$n.nutrient] | or_none else 0 end)
                  / total($p.ration; 1); $exact) ),
        ( $p.ration[] as $r | $feed[$r.feed] as $f
          | agree($where; "\($r.feed) as fed"; $r.as_fed_kg;
                  $r.dry_matter_kg / (1 - $f.waste_pct / 100) / ($f.dry_matter_pct / 100); $exact),
            agree($where; "\($r.feed) for the group"; $r.group_as_fed_kg; $r.as_fed_kg * $p.head; $exact) ),
        ( $p.nutrients[] as $n | worked($n.nutrient; $p) as $w
          | (if $w == null then empty
             elif $w == "none" then (if $n.supplied == null then empty else complain($where; $n.nutrient; $n.supplied; $w) end)
             else agree($where; $n.nutrient; $n.supplied; $w; 1e-5) end),
            ( if $plan.verdict != "balanced" or $n.supplied == null then empty
              else (if ($n.nutrient | test("^(net_energy|dry_matter|dry_matter_fill)$")) then 0.01 else 1e-5 end) as $room
              | (if $n.least != null and $n.supplied < $n.least - $room * ([($n.least | fabs), 1e-3] | max)
                 then "\($where): \($n.nutrient): \($n.supplied) is under \($n.least)" else empty end),
                (if $n.most != null and $n.supplied > $n.most + $room * ([($n.most | fabs), 1e-3] | max)
                 then "\($where): \($n.nutrient): \($n.supplied) is over \($n.most)" else empty end)
              end ) ) ) ),

  # ---- stock and money
  ( ( [ $plan.groups[] as $g | $g.periods[] as $p | $p.ration[]
        | {feed, kg: (.as_fed_kg * $p.head * $p.days)} ]
      | group_by(.feed) | map({key: .[0].feed, value: ([.[].kg] | add)}) | from_entries ) as $taken
    | ( ( $plan.stacks[] as $s | $feed[$s.stack] as $f | ($taken[$s.stack] // 0) as $kg
          | agree($s.stack; "taken"; $s.taken_as_fed_kg; $kg; $exact),
            agree($s.stack; "eaten and wasted"; $s.fed_kg + $s.waste_kg; $kg * $f.dry_matter_pct / 100; $exact),
            agree($s.stack; "the books"; $s.dry_matter_kg; $s.fed_kg + $s.waste_kg + $s.left_kg; 1e-5),
            (if $kg > $f.available_kg * (1 + 1e-6) then "\($s.stack): more is fed than is there" else empty end) ),
        ( $plan.purchases[] as $b | $feed[$b.feed] as $f
          | ( (($taken[$b.feed] // 0) / (1 - $f.shrink_pct / 100)) as $fed
              | if $b.loads == null then agree($b.feed; "bought"; $b.as_fed_kg; $fed; $exact)
                else agree($b.feed; "whole loads"; $b.loads; ($b.loads | round); 0),
                     agree($b.feed; "loads"; $b.as_fed_kg; $b.loads * $f.load_kg; $exact),
                     agree($b.feed; "left of its loads"; $b.left_kg;
                           ($b.as_fed_kg - $fed) * (1 - $f.shrink_pct / 100); 1e-4),
                     (if $fed > $b.as_fed_kg * (1 + 1e-6) then "\($b.feed): more is fed than was bought" else empty end)
                end ),
            agree($b.feed; "paid"; $b.cost; $b.as_fed_kg * $f.price_per_kg; $exact) ),
        agree("cost"; "feed bought"; $plan.cost.feed_bought; ([$plan.purchases[].cost] | add // 0); $exact),
        agree("cost"; "own feed"; $plan.cost.own_feed;
              ([$taken | to_entries[] | .value * $feed[.key].value_per_kg] | add // 0); $exact),
        agree("cost"; "hauling"; $plan.cost.hauling;
              ([ $plan.groups[] as $g | $g.periods[] as $p | $p.ration[]
                 | $feed[.feed] as $f | .as_fed_kg * $p.head * $p.days * haul($f; $g) ] | add // 0); $exact),
        agree("cost"; "total"; $plan.cost.total;
              $plan.cost.feed_bought + $plan.cost.own_feed + $plan.cost.hauling + $plan.cost.yardage; $exact),
        ( if $plan.verdict == "balanced" and
             ($plan.cost.total - $plan.cost.yardage + $plan.cost.cautions_weigh) >
             ($plan.cost.least_cost_of_feed_and_hauling + $plan.cost.least_cautions_weigh) * 1.0011
          then "cost: dearer than the least cost allows" else empty end ) ) )
