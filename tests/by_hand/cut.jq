# A printed choice of acres worked again from its own figures: what each hectare makes and costs, what each
# field holds, and every dollar of each future. A line is printed for each that does not agree.
#
#   jq -r -f tests/by_hand/cut.jq cut.json

def near($a; $b): ($a - $b) | fabs <= 1e-6 * ([($a | fabs), ($b | fabs), 1] | max);
def agree($where; $what; $printed; $worked):
  if $printed == null or $worked == null or (near($printed; $worked) | not)
  then "\($where): \($what): printed \($printed), worked out \($worked)" else empty end;

# planned anew, with the acres held: the intake limits may settle a little apart
def agree_roughly($where; $what; $printed; $worked):
  if $printed == null or (($printed - $worked) | fabs) > 0.002 * ($worked | fabs)
  then "\($where): \($what): printed \($printed), worked out \($worked)" else empty end;

. as $all
| (reduce .cuts[] as $c ({}; .[$c.cut] = $c)) as $cut
| def put_up: .yield_kg_per_hectare * (1 - .field_loss_share) * (1 - .rain_chance * .rain_loss_share)
    / .dry_matter_share;
  def grazed: .regrowth_kg_per_hectare * .regrowth_use_share * .grazing_value_per_kg;
  def costs: .area_cost_per_hectare + put_up * .put_up_cost_per_kg;

  (.cuts[]
    | agree(.cut; "cost of a hectare"; .cost_per_hectare; costs),
      agree(.cut; "grazing of a hectare"; .grazing_per_hectare; grazed)),

  (.futures[] | . as $future
    | (.cuts[] | $cut[.cut] as $c
        | agree("\($future.name), \(.cut)"; "made, after storage"; .as_fed_kg;
                .hectares * ($c | put_up) * (1 - $c.storage_loss_share)),
          (if .fed_kg > .as_fed_kg * (1 + 1e-6) + 0.1
           then "\($future.name), \(.cut): \(.fed_kg) kg fed of \(.as_fed_kg)" else empty end)),
      ([.cuts[] | {field: $cut[.cut].field, hectares}] | group_by(.field)[]
        | . as $of | ([.[].hectares] | add) as $sum
        | ([$all.cuts[] | select(.field == $of[0].field) | .field_hectares] | max) as $area
        | if $sum > $area * (1 + 1e-6)
          then "\($future.name), \($of[0].field): \($sum) ha of \($area)" else empty end),
      agree(.name; "growing"; .cost.growing; [.cuts[] | .hectares * ($cut[.cut] | costs)] | add // 0),
      agree(.name; "grazing"; .cost.grazing; [.cuts[] | .hectares * ($cut[.cut] | grazed)] | add // 0),
      agree(.name; "left over"; .cost.surplus;
            [.cuts[] | (.as_fed_kg - .fed_kg) * $cut[.cut].left_over_value_per_kg] | add // 0),
      agree(.name; "bought"; .cost.feed_bought; [.purchases[].cost] | add // 0),
      # what falls short has no total to rank by
      (if .verdict == "balanced"
       then agree(.name; "total"; .cost.total;
            .cost.growing - .cost.grazing - .cost.surplus + .cost.feed_bought + .cost.hauling + .cost.yardage +
             .cost.cautions_weigh)
       elif .cost.total != null then "\(.name): falls short and has a total" else empty end),
      (if .verdict == "balanced"
       then agree_roughly(.name; "the year as expected"; .cost_by_year.expected; .cost.total) else empty end)),

  # the price at which the answer turns is between prices at which it differs
  (.turn | select(. != null and .price_per_kg != null)
    | if (.first_low - .second_low) * (.first_high - .second_high) < 0 and .low_per_kg < .price_per_kg
         and .price_per_kg < .high_per_kg
      then empty else "turn: the same future is cheaper on both sides" end),

  # nothing that is given days is cheaper than what may choose them
  ([.futures[] | select(.verdict == "balanced")] as $fed
    | ($fed[] | select(.key == "mixed") | .cost.total) as $least
    | $fed[] | select(.cost.total < $least * (1 - 0.005))
    | "\(.name): costs \(.cost.total), less than the mixed plan's \($least)")
