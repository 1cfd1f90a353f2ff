package plan
import ("testing";"math/rand/v2";"reflect";"pourboard/blend")
func TestZZ(t *testing.T){
	for seed := range uint64(150) {
		p:=anyPlan(rand.New(rand.NewPCG(seed, 9)))
		x,err:=blend.New(p)
		if err!=nil { t.Log(seed,err); continue }
		finite(t, reflect.ValueOf(x.Cells), "cells"); finite(t, reflect.ValueOf(x.Batches), "batches")
		if t.Failed() {t.Logf("%d %s",seed,Write(p)); return}
	}
}
