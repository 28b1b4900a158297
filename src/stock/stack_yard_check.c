/* A face and a yard that say what cannot be, or what no plan can use. */
#include "base/quantity.h"
#include "stock/stack_column.h"

/* So much a day empties it before a week is over: a load or a week's feed was written. */
#define LEAST_DAYS_OPEN 7.0

static void check_face(const Sheet *sheet, int row, const Stack *stack) {
    const double face = stack->least_face_kg_per_day;
    const Place place = sheet_place(sheet, row, STACK_FACE);
    const char *heading = sheet_heading(sheet, STACK_FACE);
    if (face <= 0.0)
        return;
    if (!stack_has_face(stack)) {
        fault_add(sheet_faults(sheet), place,
                  "%s: %s have no face that spoils; a pit, a bag and a bale tube have", heading,
                  stack_kind_name(stack->kind));
    } else if (stack->counted_kg > 0.0 && face > stack->counted_kg) {
        fault_add(sheet_faults(sheet), place, "%s: is more a day than all there is of it",
                  heading);
    } else if (face * LEAST_DAYS_OPEN > stack->counted_kg) {
        doubt_add(sheet_faults(sheet), place, "%s: empties it in %.1f days; is it for a week?",
                  heading, stack->counted_kg / face);
    }
}

void stack_check_yard(const Sheet *sheet, int row, const Stack *stack) {
    check_face(sheet, row, stack);
    if (stack->other_yard_per_kg > 0.0 && stack->yard[0] == '\0')
        doubt_add(sheet_faults(sheet), sheet_place(sheet, row, STACK_OTHER_YARD),
                  "%s: is not used, because the stack's yard is empty",
                  sheet_heading(sheet, STACK_OTHER_YARD));
}
