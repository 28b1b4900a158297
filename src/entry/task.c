#include "entry/task.h"
TaskResult task_check(Arena *a, Faults *f, const FarmRequest *r){(void)a;(void)f;(void)r;return (TaskResult){0};}
TaskResult task_feeds(Arena *a, Faults *f, const FarmRequest *r){(void)a;(void)f;(void)r;return (TaskResult){0};}
TaskResult task_needs(Arena *a, Faults *f, const FarmRequest *r){(void)a;(void)f;(void)r;return (TaskResult){0};}
TaskResult task_plan(Arena *a, Faults *f, const FarmRequest *r){(void)a;(void)f;(void)r;return (TaskResult){0};}
